using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Control;
using Goodsheet.App.Demo;
using Goodsheet.App.Money;
using Goodsheet.App.Settings;
using Goodsheet.App.Storage;
using Goodsheet.App.Today;
using Goodsheet.Colour.Icc;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Demo;

/// <summary>One demonstration room for all tests of this class: it takes a while to invent.</summary>
public sealed class MadeDemo : IAsyncLifetime
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-demo-");

    /// <summary>A Wednesday, in the afternoon.</summary>
    public static DateTimeOffset Now { get; } = new(2026, 3, 18, 14, 5, 0, TimeSpan.Zero);

    public string Folder => Path.Combine(folder.FullName, "room");

    public RoomStore Store => RoomStore.InFile(Path.Combine(Folder, "room.db"));

    public async ValueTask InitializeAsync() => Assert.True((await DemoRoom.MakeReadyAsync(
        Folder, Now, TimeZoneInfo.Utc, new Silence(), TestContext.Current.CancellationToken)).Value!.IsNew);

    public ValueTask DisposeAsync()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        folder.Delete(recursive: true);
        return ValueTask.CompletedTask;
    }

    public sealed class Silence : IProgress<string>
    {
        public void Report(string value)
        {
        }
    }
}

public sealed class DemoRoomTest(MadeDemo demo) : IClassFixture<MadeDemo>
{
    private static readonly bool Slow = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task No_lot_was_ever_below_nothing_and_every_lot_adds_up()
    {
        await using var db = demo.Store.Open();
        var moves = await db.Moves.AsNoTracking().OrderBy(m => m.Lot).ThenBy(m => m.Number).ToListAsync(Cancel);
        Assert.True(moves.Count > 300);
        foreach (var lot in moves.GroupBy(m => m.Lot))
        {
            var balance = LotBalance.Nothing(lot.Key);
            foreach (var move in lot)
            {
                balance = balance.After(move); // refuses a gap in the numbers
                Assert.True(balance.OnShelf >= 0 && balance.AtPrinters.Values.All(v => v >= 0), $"lot {lot.Key}, move {move.Number}");
            }

            Assert.Equal(0, lot.GroupBy(m => m.To).Sum(g => g.Sum(m => m.Quantity)) - lot.GroupBy(m => m.From).Sum(g => g.Sum(m => m.Quantity)));
            Assert.Equal(balance.InRoom, In(lot, Account.Shelf) + balance.AtPrinters.Values.Sum());
        }

        static long In(IEnumerable<Move> moves, Account account) =>
            moves.Sum(m => m.To == account ? m.Quantity : m.From == account ? -m.Quantity : 0);
    }

    [Fact]
    public async Task Every_class_of_paper_is_there_and_every_move_has_an_invented_name_and_a_past_date()
    {
        await using var db = demo.Store.Open();
        Assert.Equal(Enum.GetValues<PaperClass>(), (await db.Papers.Select(p => p.Class).Distinct().ToListAsync(Cancel)).Order());
        var people = (await db.People.Select(p => p.Name).ToListAsync(Cancel)).ToHashSet();
        var moves = await db.Moves.AsNoTracking().ToListAsync(Cancel);
        Assert.All(moves, m => Assert.Contains(m.By, people));
        Assert.All(moves, m => Assert.InRange(m.At, MadeDemo.Now.AddDays(-DemoRoom.Days - 1), MadeDemo.Now));
        Assert.True(moves.Select(m => m.At.Date).Distinct().Count() > DemoRoom.Days / 3);
        foreach (var cause in (WasteCause[])[WasteCause.Curl, WasteCause.Dust, WasteCause.Handling])
        {
            Assert.Contains(moves, m => m.To == Account.Waste(cause));
        }
    }

    [Fact]
    public async Task Its_profiles_are_made_by_the_rooms_own_maker_and_stand_in_every_way()
    {
        await using var db = demo.Store.Open();
        var profiles = await db.Profiles.AsNoTracking().ToListAsync(Cancel);
        Assert.Superset(
            new HashSet<Standing> { Standing.New, Standing.Trusted, Standing.Due, Standing.Drifting }, profiles.Select(p => p.Standing).ToHashSet());
        foreach (var profile in profiles)
        {
            var bytes = await File.ReadAllBytesAsync(new Files.FileShelf(Path.Combine(demo.Folder, "files")).PathOf(profile.FileHash), Cancel);
            Assert.NotNull(IccProfile.Read(bytes).Profile);
            Assert.InRange(profile.MeanError!.Value, 0, 1.5); // "fair" and better
        }
    }

    [Fact]
    public async Task No_strip_and_no_chart_of_half_a_year_cries_wrong_black()
    {
        await using var db = demo.Store.Open();
        var strips = await db.StripReadings.AsNoTracking().ToListAsync(Cancel);
        Assert.True(strips.Count > 40);
        Assert.All(strips, s => Assert.False(JsonSerializer.Deserialize<StripVerdict>(s.Verdict)!.WrongBlack));
        Assert.All(await db.Readings.AsNoTracking().ToListAsync(Cancel), r => Assert.DoesNotContain("black belongs on it", r.Findings, StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_was_left_over_is_known_of_many_orders_and_most_prints_are_with_their_clients()
    {
        var money = await new ShowMoney(demo.Store, new At(MadeDemo.Now)).RunAsync(Cancel);
        Assert.True(money.Orders.Count > 15);
        Assert.True(money.ByPaper.Count > 2 && money.ByClient.Count > 2);
        Assert.True(money.NotQuoted > 0);
        await using var db = demo.Store.Open();
        var done = await db.Orders.AsNoTracking().Where(o => o.State == OrderState.Done).ToListAsync(Cancel);
        Assert.True(done.Count(o => o.OutAt is not null) > 0.8 * done.Count);
        Assert.Contains(done, o => o.OutAt is null); // the last ones are still to be finished
    }

    [Fact]
    public async Task Today_is_alive()
    {
        var today = await new ShowToday(demo.Store, new At(MadeDemo.Now)).RunAsync(Cancel);
        Assert.NotEmpty(today.Runs);
        Assert.NotEmpty(today.Orders);
        Assert.Equal(StripWait.ToMake, Assert.Single(today.Strips).Wait); // of the large print
        Assert.NotEmpty(today.Checks);
        Assert.NotEmpty(today.Buy);
        Assert.All(today.Buy, b => Assert.True(b.Promise.CutOff > MadeDemo.Now));
        Assert.Contains(today.GoingOutOfDate, l => l.GoodUntil < today.Day);
        Assert.Contains(today.GoingOutOfDate, l => l.GoodUntil > today.Day);
    }

    [Fact]
    public async Task Three_suppliers_kept_their_word_each_in_its_own_way()
    {
        await using var db = demo.Store.Open();
        var deliveries = (await db.Deliveries.ToListAsync(Cancel)).GroupBy(d => d.Supplier).ToDictionary(g => g.Key.Value, g => g.ToList());
        Assert.Equal(3, deliveries.Count);
        double Late(string supplier) => deliveries[supplier].Count(d => d.DaysLate > 0) / (double)deliveries[supplier].Count;
        Assert.True(Late("tortoise-carriers-of-paper") > Late("sundry-maybe"));
        Assert.All(await db.PurchaseLines.ToListAsync(Cancel), l => Assert.True(l.Price > 0 && l.Reason.Length > 0));
    }

    [Fact]
    public async Task It_says_that_it_is_a_demonstration()
    {
        Assert.True((await new ShowSettings(demo.Store).RunAsync(Cancel)).IsDemo);
        Assert.DoesNotContain(Directory.EnumerateFileSystemEntries(Path.GetDirectoryName(demo.Folder)!), e => e != demo.Folder);
    }

    [Fact]
    public async Task A_second_opening_makes_nothing_and_another_room_is_left_alone()
    {
        var again = await DemoRoom.MakeReadyAsync(demo.Folder, MadeDemo.Now, TimeZoneInfo.Utc, new MadeDemo.Silence(), Cancel);
        Assert.False(again.Value!.IsNew);

        await using var keepers = await FreshRoom.InFileAsync();
        var refused = await DemoRoom.MakeReadyAsync(keepers.Folder, MadeDemo.Now, TimeZoneInfo.Utc, new MadeDemo.Silence(), Cancel);
        Assert.IsType<DemoRoom.IsNotADemo>(refused.Refusal);
        Assert.False((await new ShowSettings(keepers.Store).RunAsync(Cancel)).IsDemo);
    }

    [Fact]
    public async Task Stopped_midway_it_leaves_nothing()
    {
        var parent = Directory.CreateTempSubdirectory("goodsheet-demo-");
        try
        {
            using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
            var told = new StopAfter(stop, "Painting");
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => DemoRoom.MakeReadyAsync(
                Path.Combine(parent.FullName, "room"), MadeDemo.Now, TimeZoneInfo.Utc, told, stop.Token));
            Assert.Empty(parent.EnumerateFileSystemInfos());
        }
        finally
        {
            parent.Delete(recursive: true);
        }
    }

    /// <summary>Long, so only with the slow switch.</summary>
    [Fact]
    public async Task The_same_seed_and_instant_give_the_same_room()
    {
        if (!Slow)
        {
            return;
        }

        await using var other = new Another();
        await other.MakeAsync();
        Assert.Equal(await StoryAsync(demo.Store), await StoryAsync(other.Store));

        static async Task<List<string>> StoryAsync(RoomStore store)
        {
            await using var db = store.Open();
            return
            [
                .. (await db.Moves.AsNoTracking().OrderBy(m => m.Lot).ThenBy(m => m.Number).ToListAsync(Cancel)).Select(m => m.ToString()),
                .. (await db.PrintLines.AsNoTracking().OrderBy(l => l.Order).ToListAsync(Cancel)).Select(l => $"{l.Order} {l.Title} {l.Paper} {l.Copies} {l.Good} {l.Wasted} {l.ImageHash}"),
                .. (await db.Readings.AsNoTracking().OrderBy(r => r.Number).ToListAsync(Cancel)).Select(r => $"{r.Number} {r.FileHash}"),
            ];
        }
    }

    private sealed class Another : IAsyncDisposable
    {
        private readonly MadeDemo made = new();

        public RoomStore Store => made.Store;

        public ValueTask MakeAsync() => made.InitializeAsync();

        public ValueTask DisposeAsync() => made.DisposeAsync();
    }

    private sealed class At(DateTimeOffset now) : TimeProvider
    {
        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

        public override DateTimeOffset GetUtcNow() => now;
    }

    private sealed class StopAfter(CancellationTokenSource stop, string word) : IProgress<string>
    {
        public void Report(string value)
        {
            if (value.StartsWith(word, StringComparison.Ordinal))
            {
                stop.Cancel();
            }
        }
    }
}
