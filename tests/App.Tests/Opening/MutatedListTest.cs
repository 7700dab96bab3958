using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Buying;
using Goodsheet.App.Files;
using Goodsheet.App.Layout;
using Goodsheet.App.Opening;

namespace Goodsheet.App.Tests.Opening;

/// <summary>Lists damaged at random: every line is said to be fine or wrong, or the list is refused with a sentence; nothing is taken in.</summary>
public sealed class MutatedListTest : IAsyncLifetime
{
    private const string Prices = $"{ImportPrices.Heading}\ntest-cotton,A2,2026-04-01,1,25,50\ntest-cotton,A4,2026-04-01,5,50,19.5\n\"test-cotton\",\"roll 610\",2026-04-01,1,12000,80\n";
    private const string Pieces = "name,width_mm,height_mm,copies\nA pear,210,297,2\n\"Two, pears\",148.5,210,1\n";

    private const int AtOnce = 50;

    private static readonly int Rounds = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 100_000 : 1_000;

    private static readonly string[] Words = ["\n", ",", ";", "\"", "\t", "1e309", "-", "NaN", "99999999999999999999", "0000-00-00", "\0", "paper", "2026-02-30", "\r", "''", "=1+1", "\uFEFF", "٣"];

    private static readonly string[] Lists =
    [
        "name,class,grammage\nInvented Matte 230,matte,230\nInvented Rag 300,smooth fine art,300\n",
        "name,cut_off,lead_days,email\nInvented Papers,14:30,1,orders@invented.example\n",
        "supplier,paper,format,pack,price\nCorvane,Test Cotton 300,A2,25,120.50\n",
        "paper;format;quantity;best_before;place\nTest Cotton 300;A2;25;2028-01-31;drawer 1\ntest-cotton;roll 610;12,5;;rack\n",
        "name\tkind\tprinter\tchannel\tml\tquantity\treorder_at\nHeron matte black\tink\tHeron\tmatte black\t80\t2\t1\n",
        "file,printer,paper\ncotton.icc,Heron,Test Cotton 300\n",
    ];

    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private FreshRoom room = null!;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        await using var db = room.Store.Open();
        db.Suppliers.Add(new() { Code = new("corvane"), Name = "Corvane", TimeZone = "Europe/London" });
        await db.SaveChangesAsync(Cancel);
    }

    public ValueTask DisposeAsync() => room.DisposeAsync();

    [Fact]
    public async Task A_price_list_is_reported_line_by_line_or_refused()
    {
        await using var db = room.Store.Open();
        var (papers, formats) = (await db.Papers.Select(p => p.Code).ToHashSetAsync(Cancel), await db.Formats.ToDictionaryAsync(f => f.Code, Cancel));
        var (fine, wrong, refused) = (0, 0, 0);
        await EachAsync([Prices], 71, text =>
        {
            var (lines, no) = ImportPrices.Read(new(new("corvane"), text, DryRun: true), papers, formats);
            Assert.True(no is null || !string.IsNullOrWhiteSpace(no.Message), text);
            Assert.True(no is not null || lines.All(l => l.Report.Wrong == l.Price is null && !string.IsNullOrWhiteSpace(l.Report.Says)), text);
            (fine, wrong, refused) = no is not null ? (fine, wrong, refused + 1) : lines.Exists(l => l.Report.Wrong) ? (fine, wrong + 1, refused) : (fine + 1, wrong, refused);
            return Task.CompletedTask;
        });
        Assert.True(fine > 0 && wrong > 0 && refused > 0, $"{fine} fine, {wrong} wrong, {refused} refused: the changes test nothing");
    }

    [Fact]
    public async Task A_list_of_the_opening_day_is_reported_line_by_line()
    {
        // Sixty lists come in at once: so many damaged ones are looked at in one go.
        var bring = new BringInRoom(room.Store, new FileShelf(Path.Combine(room.Folder, "files")), clock);
        var (paths, fine, wrong) = (new List<(string, string)>(), 0, 0);
        await EachAsync(Lists, 72, async text =>
        {
            var name = $"list{paths.Count}.csv";
            paths.Add((name, Path.Combine(room.Folder, name)));
            await File.WriteAllTextAsync(paths[^1].Item2, text, Cancel);
            if (paths.Count == AtOnce)
            {
                var done = (await bring.RunAsync(new(new("Mira"), [.. paths], DecimalMark.Point, DryRun: true), Cancel)).Value!;
                Assert.Equal(AtOnce, done.Files.Count);
                Assert.All(done.Files.SelectMany(f => f.Lines), l => Assert.False(l.State is LineState.Wrong && string.IsNullOrWhiteSpace(l.Says)));
                var bad = done.Files.Count(f => f.Lines.Any(l => l.State is LineState.Wrong));
                (fine, wrong) = (fine + AtOnce - bad, wrong + bad);
                paths.Clear();
            }
        });
        Assert.True(fine > 0 && wrong > 0, $"{fine} fine, {wrong} wrong: the changes test nothing");
        await using var db = room.Store.Open();
        Assert.Equal(1, await db.Papers.CountAsync(Cancel));
    }

    [Fact]
    public async Task A_list_of_pieces_is_read_or_refused_with_its_line()
    {
        var (path, read, refused) = (Path.Combine(room.Folder, "pieces.csv"), 0, 0);
        await EachAsync([Pieces], 73, async text =>
        {
            await File.WriteAllTextAsync(path, text, Cancel);
            var outcome = await PieceFile.ReadAsync(path, mayTurn: true, Cancel);
            Assert.False(outcome.Refusal is { } no && string.IsNullOrWhiteSpace(no.Message), text);
            Assert.False(outcome.Granted && outcome.Value.Any(p => p.Copies < 1), text);
            (read, refused) = outcome.Granted ? (read + 1, refused) : (read, refused + 1);
        });
        Assert.True(read > 0 && refused > 0, $"{read} read, {refused} refused: the changes test nothing");
    }

    // Seeded: a failure names its round, which replays.
    private static async Task EachAsync(string[] seeds, int seed, Func<string, Task> act)
    {
        var random = new Random(seed);
        for (var round = 0; round < Rounds; round++)
        {
            var text = seeds[random.Next(seeds.Length)];
            for (var change = random.Next(1, 5); change > 0; change--)
            {
                text = Changed(text, random);
            }

            try
            {
                await act(text);
            }
            catch (Exception e) when (e is not Xunit.Sdk.XunitException and not OperationCanceledException)
            {
                Assert.Fail($"round {round}: {e}");
            }
        }
    }

    private static string Changed(string text, Random random)
    {
        var at = random.Next(text.Length + 1);
        var length = Math.Min(random.Next(1, 20), text.Length - at);
        return random.Next(4) switch
        {
            0 => text.Remove(at, length),
            1 => text.Insert(at, Words[random.Next(Words.Length)]),
            2 => text.Insert(at, text.Substring(at, length)),
            _ => text.Insert(at, $"{(char)random.Next(1, 0x300)}"),
        };
    }
}
