using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Files;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Tests.Profiles;

/// <summary>A profile of an invented printer, brought in as if it came from elsewhere, and what its pages ask.</summary>
public sealed class ProfilePagesTest : IAsyncLifetime
{
    private static readonly PersonName Mira = new("Mira");

    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private FreshRoom room = null!;
    private FileShelf files = null!;
    private int reading;
    private string profile = "";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        files = new(Path.Combine(room.Folder, "files"));
        var chart = InventedPrinter.Read(
            InventedPrinter.On(new() { Surface = 0.02 }, pigment: true, drift: PrinterDrift.None), [.. ChartDesign.First(DeviceSpace.Rgb, 150)], 1);
        var hash = await KeepAsync(Encoding.UTF8.GetBytes(CgatsWriter.Write(chart, "invented", "invented")));
        reading = (await new BringInReading(room.Store, files, clock).RunAsync(new(Mira, hash, "chart.txt", FreshRoom.Cotton, FreshRoom.Heron, "Art"), Cancel)).Value!.Reading;
        profile = await KeepAsync((await new MakeProfile(clock).RunAsync(new([files.PathOf(hash)], "elsewhere", Grid: 9), cancel: Cancel)).Value!.File);
    }

    public ValueTask DisposeAsync() => room.DisposeAsync();

    [Fact]
    public async Task A_profile_from_elsewhere_is_judged_kept_once_and_shown()
    {
        var bring = new BringInProfile(room.Store, files, clock);
        Assert.IsType<BringInProfile.ChooseAReading>((await bring.RunAsync(new(Mira, profile, "theirs.icc", 99), Cancel)).Refusal);
        await using var db = room.Store.Open();
        var chart = (await db.Readings.SingleAsync(Cancel)).FileHash;
        Assert.IsType<VerifyProfile.NotAProfile>((await bring.RunAsync(new(Mira, chart, "chart.txt", reading), Cancel)).Refusal);
        var number = (await bring.RunAsync(new(Mira, profile, "theirs.icc", reading), Cancel)).Value!.Profile;
        Assert.Equal(number, (await bring.RunAsync(new(Mira, profile, "again.icc", reading), Cancel)).Value!.Profile);

        var line = (await new ShowProfiles(room.Store).OneAsync(number, Cancel))!;
        Assert.Equal(("theirs", null, Standing.New), (line.Profile.Name, line.Profile.MadeFrom, line.Profile.Standing));
        var worth = ShowProfiles.WorthOf(line.Profile)!;
        Assert.Null(worth.Foretold);
        Assert.Equal(worth.Chart, (await new JudgeProfile(room.Store, files).RunAsync(new(number, reading), Cancel)).Value!.Chart);
        Assert.Contains("dE00 mean p95 worst,\"The chart\",", WorthCsv.Of(worth), StringComparison.Ordinal);
        Assert.InRange((await new WorthDocument(room.Store, files).RunAsync(number, Cancel)).Value!.Pages, 2, 3);

        Assert.Contains("L* a* b* of Red number (cyan),\"0.5\",", WorthCsv.Of(worth), StringComparison.Ordinal);
        Assert.Contains("measured less foretold L* a* b*,\"Neutrals\",", WorthCsv.Of(worth), StringComparison.Ordinal);
        Assert.Equal(worth.Bend(), Bends.Of([.. worth.Greys.Select(g => g[1])]));

        // As it was stored before inks and leanings were told: the page still shows it.
        var before = JsonNode.Parse(line.Profile.Worth!)!.AsObject();
        before.Remove("Ramps");
        before["Regions"]!.AsArray().ToList().ForEach(r => r!.AsObject().Remove("Lean"));
        var old = JsonSerializer.Deserialize<WorthRecord>(before.ToJsonString())!;
        Assert.Empty(old.Leans());
        Assert.Equal(worth.Rows(), old.Rows());

        Assert.True((await new TakeOlderProfile(room.Store, files).AskAsync(number, Cancel)).Granted);
        var older = (await new TakeOlderProfile(room.Store, files).RunAsync(number, Cancel)).Value!;
        Assert.EndsWith("-1-older.icc", older.Name, StringComparison.Ordinal);
        Assert.Equal(2, IccProfile.Read(older.File).Profile!.Header.Major);
        Assert.IsType<DecideProfile.NoSuchProfile>((await new TakeOlderProfile(room.Store, files).RunAsync(99, Cancel)).Refusal);
        Assert.IsType<DecideProfile.NoSuchProfile>((await new TakeOlderProfile(room.Store, files).AskAsync(99, Cancel)).Refusal);
        var old2 = (await bring.RunAsync(new(Mira, await KeepAsync(older.File), "theirs-2.icc", reading), Cancel)).Value!.Profile;
        Assert.IsType<WriteOlderProfile.IsOldAlready>((await new TakeOlderProfile(room.Store, files).AskAsync(old2, Cancel)).Refusal);

        var shape = (await new ShowGamut(room.Store, files).RunAsync(number, Cancel))!;
        Assert.All(shape.Slices, s => Assert.NotEmpty(s.Pieces));
        Assert.All(shape.Triangles, t => Assert.Equal(12, t.Length));
        Assert.Equal(1 + shape.Slices.Sum(s => s.Pieces.Count) + (3 * shape.Triangles.Count), WorthCsv.Of(shape).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);

        var compared = (await new CompareProfiles(room.Store, files).RunAsync(new(number, number), Cancel)).Value!;
        Assert.Equal((compared.First, 0.0), (compared.Shared, compared.Max));
        Assert.IsType<CompareProfiles.NoSuchPair>((await new CompareProfiles(room.Store, files).RunAsync(new(number, 99), Cancel)).Refusal);

        var lights = await new ShowLights(room.Store, files).RunAsync(number, Cancel);
        Assert.Contains(lights, l => l.Light is ViewingLight.WarmLamp && l.Mean > 0);
    }

    [Fact]
    public async Task A_condition_has_one_profile_to_print_with_and_keeps_its_history()
    {
        var bring = new BringInProfile(room.Store, files, clock);
        var first = (await bring.RunAsync(new(Mira, profile, "theirs.icc", reading), Cancel)).Value!.Profile;
        await using var db = room.Store.Open();
        var chart = files.PathOf((await db.Readings.SingleAsync(Cancel)).FileHash);
        var other = await KeepAsync((await new MakeProfile(clock).RunAsync(new([chart], "another", Grid: 9), cancel: Cancel)).Value!.File);
        var second = (await bring.RunAsync(new(Mira, other, "ours.icc", reading), Cancel)).Value!.Profile;
        var decide = new DecideProfile(room.Store, clock);
        await decide.RunAsync(new(Mira, first, Standing.Trusted, "it came with the paper"), Cancel);
        clock.Advance(TimeSpan.FromDays(1));
        await decide.RunAsync(new(Mira, second, Standing.Trusted, "a print looks better"), Cancel);

        var condition = (await db.Profiles.FirstAsync(Cancel)).Condition;
        Assert.Equal([Standing.Retired, Standing.Trusted], await db.Profiles.AsNoTracking().OrderBy(p => p.Number).Select(p => p.Standing).ToListAsync(Cancel));
        var history = await new ShowProfiles(room.Store).HistoryAsync(condition, Cancel);
        Assert.NotNull(history.Now);
        Assert.Equal(["Version 1 brought in", "Version 2 brought in", "Trusted: profile 1"], history.Events.Take(3).Select(e => e.What));
        Assert.Contains(history.Events, e => e.What == "Retired: profile 1" && e.More == "profile 2 took its place (Mira)");
    }

    private async Task<string> KeepAsync(byte[] bytes)
    {
        using var content = new MemoryStream(bytes);
        return (await files.KeepAsync(content, Cancel)).Hash;
    }
}
