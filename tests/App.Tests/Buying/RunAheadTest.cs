using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Buying;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Buying;

/// <summary>A room with a past run forward, and how its one item goes.</summary>
public sealed class RunAheadTest(PostgresServer postgres)
{
    private const int Years = 12;

    private static readonly PersonName Mira = new("Mira");
    private static readonly SupplierCode Corvane = new("corvane-paper");
    private static readonly ItemCode CottonA2 = new(FreshRoom.Cotton, FreshRoom.A2);
    private readonly FakeTimeProvider clock = new(new(2026, 1, 5, 9, 0, 0, TimeSpan.Zero)); // a Monday

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task Fewer_order_days_take_more_stock_and_the_same_seed_says_the_same(RoomStore.Kind kind)
    {
        await using var room = await WithAPastAsync(kind);
        var mondays = new RunAhead.Request(WorkingWeek.Of([DayOfWeek.Monday]), Runs: Years);
        var (one, again) = (await Ask(room, mondays), await Ask(room, mondays));
        Assert.Equal(one.Value!.Proposed, again.Value!.Proposed);
        Assert.True(one.Value.Difference.StockValue.Mean > 0);
        Assert.InRange(one.Value.Present.FillRate.Mean, 0.9, 1);
        Assert.Equal(CottonA2, Assert.Single(one.Value.Items).Item);
        Assert.Empty(one.Value.WithoutPrice);
    }

    [Fact]
    public async Task A_supplier_that_stands_still_is_felt_and_a_rise_is_paid_and_nothing_else_changes()
    {
        await using var room = await WithAPastAsync(RoomStore.Kind.Sqlite);
        var still = (await Ask(room, new(WorkingWeek.EveryDay, OutageAt: Corvane, OutageDays: 120, Runs: Years))).Value!;
        Assert.True(still.Difference.FillRate.Mean < 0 && still.Difference.Waits.Mean > 0);
        var dearer = (await Ask(room, new(WorkingWeek.EveryDay, PriceAt: Corvane, PriceRise: 20, Runs: Years))).Value!;
        Assert.Equal(0, dearer.Difference.FillRate.High);
        Assert.Equal(1.2 * dearer.Present.Paper.Mean, dearer.Proposed.Paper.Mean, 1e-6);
    }

    [Fact]
    public async Task What_cannot_be_asked_is_refused()
    {
        await using var room = await WithAPastAsync(RoomStore.Kind.Sqlite);
        var any = new RunAhead.Request(WorkingWeek.EveryDay, Runs: Years);
        RunAhead.Request[] wrong =
        [
            any with { OrderDays = new(0) }, any with { FillRate = 0.4 }, any with { FillRate = double.NaN }, any with { Runs = 0 }, any with { Runs = RunAhead.MostRuns + 1 },
            any with { OutageDays = -1 }, any with { OutageDays = RunAhead.MostOutageDays + 1 }, any with { PriceRise = -101 }, any with { PriceRise = double.NaN },
        ];
        foreach (var request in wrong)
        {
            Assert.IsType<RunAhead.NotAWhatIf>((await Ask(room, request)).Refusal);
        }

        Assert.IsType<NoSuchSupplier>((await Ask(room, any with { OutageAt = new("nobody"), OutageDays = 3 })).Refusal);
        await using var bare = await (await FreshRoom.OnAsync(RoomStore.Kind.Sqlite, postgres)).FurnishedAsync();
        Assert.IsType<RunAhead.NothingToRun>((await Ask(bare, any)).Refusal);
    }

    [Fact]
    public async Task An_item_says_how_it_goes_and_by_which_method()
    {
        await using var room = await WithAPastAsync(RoomStore.Kind.Sqlite);
        var page = (await new ShowItemBuying(room.Store, clock).RunAsync(CottonA2, Cancel))!;
        Assert.InRange(page.Goes.PerDay, page.Goes.Between.Low, page.Goes.Between.High);
        Assert.Equal(Enum.GetValues<DemandMethod>(), page.Tests.Select(t => t.Method));
        Assert.Equal(page.Goes.Method, BackTest.Best(page.Tests));
        Assert.Null(await new ShowItemBuying(room.Store, clock).RunAsync(new(new("nothing"), FreshRoom.A2), Cancel));
    }

    private Task<Outcome<RunAhead.Done>> Ask(FreshRoom room, RunAhead.Request request) => new RunAhead(room.Store, clock).RunAsync(request, Cancel);

    /// <summary>Twenty weeks in which some sheets were wasted every third day, since waste is use too.</summary>
    private async Task<FreshRoom> WithAPastAsync(RoomStore.Kind kind)
    {
        var room = await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();
        var lot = (await new PutAway(room.Store, clock).RunAsync(new(CommandId.New(), Mira, CottonA2.Paper, CottonA2.Format, 600, null), Cancel)).Value!.Lot;
        var terms = new SupplierTerms("Corvane Paper", "Europe/London", WorkingWeek.MondayToFriday, WorkingWeek.MondayToFriday, "GB", 0, 200, 9, "", "", [new("next day", new(14, 30), 2)]);
        Assert.True((await new AddSupplier(room.Store).RunAsync(terms, Cancel)).Granted);
        await new SetPrice(room.Store).RunAsync(new(Corvane, CottonA2, new(2026, 1, 1), 1, 25, 48), Cancel);
        await new ChangeItem(room.Store).RunAsync(new(CottonA2, 0, 25, "drawer 2", Corvane), Cancel);
        for (var day = 0; day < 140; day++)
        {
            clock.Advance(TimeSpan.FromDays(1));
            if (day % 3 == 0)
            {
                var spoilt = await new SpoilPaper(room.Store, clock).RunAsync(new(CommandId.New(), Mira, lot, 8 + (day * 7 % 12), WasteCause.Curl), Cancel);
                Assert.True(spoilt.Granted, spoilt.Refusal?.Message);
            }
        }

        return room;
    }
}
