using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Shelf;

public sealed class LotChangesTest
{
    private static readonly PersonName Mira = new("Mira");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    // ISO 216: an A2 sheet is two of A3 and four of A4, to the millimetre.
    [Theory]
    [InlineData("A3", 10)]
    [InlineData("A4", 20)]
    public async Task Sheets_cut_up_are_a_lot_of_their_own_that_knows_where_it_came_from(string into, long pieces)
    {
        await using var room = await FurnishedAsync();
        var lot = await StockAsync(room, 25);
        var wish = new TrimPaper.Request(CommandId.New(), Mira, lot, 5, new(into), "drawer 3");
        var done = (await new TrimPaper(room.Store, clock).RunAsync(wish, Cancel)).Value!;
        var again = (await new TrimPaper(room.Store, clock).RunAsync(wish, Cancel)).Value!;

        Assert.Equal((pieces, done), (done.Pieces, again));
        await using var db = room.Store.Open();
        var cut = await db.Lots.SingleAsync(l => l.Code == done.Lot, Cancel);
        Assert.Equal((lot, "drawer 3", new DateOnly(2028, 1, 31)), (cut.CutFrom!.Value, cut.Place, cut.BestBefore!.Value));
        Assert.Equal((20, pieces), ((await db.BalanceAsync(lot, Cancel)).OnShelf, (await db.BalanceAsync(done.Lot, Cancel)).OnShelf));
    }

    [Fact]
    public async Task More_than_there_is_and_larger_than_it_is_are_refused_and_nothing_moves()
    {
        await using var room = await FurnishedAsync();
        var lot = await StockAsync(room, 3);
        var trim = new TrimPaper(room.Store, clock);
        Assert.IsType<NotEnough>((await trim.RunAsync(new(CommandId.New(), Mira, lot, 4, new("A3")), Cancel)).Refusal);
        Assert.IsType<NotSmaller>((await trim.RunAsync(new(CommandId.New(), Mira, lot, 1, new("A2")), Cancel)).Refusal);
        Assert.IsType<NotAQuantity>((await trim.RunAsync(new(CommandId.New(), Mira, lot, 0, new("A3")), Cancel)).Refusal);
        await using var db = room.Store.Open();
        Assert.Equal((3, 1), ((await db.BalanceAsync(lot, Cancel)).OnShelf, await db.Moves.CountAsync(Cancel)));
    }

    [Fact]
    public async Task Out_of_date_paper_goes_to_a_client_only_after_a_recorded_proof()
    {
        await using var room = await FurnishedAsync();
        var lot = await StockAsync(room, 5);
        clock.SetUtcNow(new(2028, 2, 1, 9, 0, 0, TimeSpan.Zero)); // the day after its last
        Assert.IsType<LotOutOfDate>((await DrawAsync(room, lot)).Refusal);

        var extend = new ExtendLot(room.Store, clock);
        Assert.IsType<ExtendLot.SayHowItWasProved>((await extend.RunAsync(new(Mira, lot, new(2028, 5, 1), " "), Cancel)).Refusal);
        Assert.IsType<ExtendLot.NotUntil>((await extend.RunAsync(new(Mira, lot, new(2029, 2, 2), "a strip agrees"), Cancel)).Refusal);
        Assert.True((await extend.RunAsync(new(Mira, lot, new(2028, 5, 1), "a strip agrees"), Cancel)).Granted);

        Assert.True((await DrawAsync(room, lot)).Granted);
        await using var db = room.Store.Open();
        var decision = await db.Decisions.SingleAsync(Cancel);
        Assert.Equal(($"lot {lot}", "a strip agrees", Mira), (decision.About, decision.Why, decision.By));
    }

    [Fact]
    public async Task What_is_for_tests_only_prints_charts_and_no_client_s_work()
    {
        await using var room = await FurnishedAsync();
        var lot = await StockAsync(room, 5);
        var change = new ChangeLot(room.Store, clock);
        Assert.IsType<SayWhy>((await change.RunAsync(new(Mira, lot, "tests", LotCondition.TestsOnly, ""), Cancel)).Refusal);
        Assert.True((await change.RunAsync(new(Mira, lot, "tests", LotCondition.TestsOnly, "curled at the edges"), Cancel)).Granted);
        Assert.IsType<LotIsNotSound>((await DrawAsync(room, lot)).Refusal);
        Assert.True((await new UseForTests(room.Store, clock).RunAsync(new(CommandId.New(), Mira, lot, 1), Cancel)).Granted);

        await change.RunAsync(new(Mira, lot, "bin", LotCondition.Scrap, "wet"), Cancel);
        Assert.IsType<LotIsNotSound>((await new UseForTests(room.Store, clock).RunAsync(new(CommandId.New(), Mira, lot, 1), Cancel)).Refusal);
    }

    private Task<Outcome<Moved>> DrawAsync(FreshRoom room, LotCode lot) =>
        new DrawPaper(room.Store, clock).RunAsync(new(CommandId.New(), Mira, lot, 1, FreshRoom.Heron), Cancel);

    private async Task<LotCode> StockAsync(FreshRoom room, long sheets) => (await new PutAway(room.Store, clock).RunAsync(
        new(CommandId.New(), Mira, FreshRoom.Cotton, FreshRoom.A2, sheets, new(2028, 1, 31)), Cancel)).Value!.Lot;

    private static async Task<FreshRoom> FurnishedAsync() => await (await FreshRoom.InFileAsync()).FurnishedAsync();
}
