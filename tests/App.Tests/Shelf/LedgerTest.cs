using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Shelf;

/// <summary>The same promises on both stores: what is drawn is there, what is asked once is done once, nothing is unwritten.</summary>
public sealed class LedgerTest(PostgresServer postgres)
{
    private static readonly PersonName Mira = new("Mira");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task Of_many_who_draw_the_last_sheets_at_once_only_as_many_get_one_as_there_are(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var lot = await StockAsync(room, sheets: 7);
        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => Task.Run(() => DrawAsync(room, lot, sheets: 1))));

        Assert.Equal(7, answers.Count(a => a.Granted));
        Assert.All(answers.Where(a => !a.Granted), a => Assert.Equal(new NotEnough(lot, Account.Shelf, 1, 0), a.Refusal));
        var balance = await BalanceAsync(room, lot);
        Assert.Equal((0, 7), (balance.OnShelf, balance.Of(Account.At(FreshRoom.Heron))));
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task A_wish_repeated_at_once_and_later_is_done_once(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var lot = await StockAsync(room, sheets: 25);
        var wish = CommandId.New();
        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => DrawAsync(room, lot, 5, wish))));
        var later = await DrawAsync(room, lot, 5, wish);

        Assert.All(answers.Append(later), a => Assert.Equal(answers[0].Value?.Move, a.Value?.Move));
        Assert.Equal(20, (await BalanceAsync(room, lot)).OnShelf);
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task A_command_used_again_for_something_else_is_refused(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var lot = await StockAsync(room, sheets: 25);
        var wish = CommandId.New();
        await DrawAsync(room, lot, 5, wish);
        Assert.Equal(new CommandUsedOtherwise(wish), (await DrawAsync(room, lot, 6, wish)).Refusal);
        Assert.Equal(20, (await BalanceAsync(room, lot)).OnShelf);
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task Goods_in_sent_twice_makes_one_lot(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var request = Delivery(25);
        var first = await new PutAway(room.Store, clock).RunAsync(request, Cancel);
        var again = await new PutAway(room.Store, clock).RunAsync(request, Cancel);
        Assert.Equal(first.Value, again.Value);
        await using var db = room.Store.Open();
        Assert.Single(await db.Lots.ToListAsync(Cancel));
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task A_balance_from_its_checkpoint_is_the_fold_over_every_move(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var lot = await StockAsync(room, sheets: 1_000);
        for (var i = 0; i < 230; i++)
        {
            await DrawAsync(room, lot, sheets: 2);
        }

        await using var db = room.Store.Open();
        var checkpoint = await db.Checkpoints.SingleAsync(Cancel);
        Assert.Equal(225, checkpoint.Through); // 231 moves, a checkpoint each 25
        var moves = await db.Moves.OrderBy(m => m.Number).ToListAsync(Cancel);
        var fold = moves.Aggregate(LotBalance.Nothing(lot), (sofar, move) => sofar.After(move));
        var balance = await BalanceAsync(room, lot);
        Assert.Equal((fold.Through, fold.OnShelf, fold.InRoom), (balance.Through, balance.OnShelf, balance.InRoom));
        Assert.Equal((540, 1_000), (fold.OnShelf, fold.InRoom));
        Assert.Equal(540, Assert.Single((await new ShowShelf(room.Store, clock).RunAsync(new(), Cancel)).Lots).OnShelf);
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task What_is_written_stays(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var lot = await StockAsync(room, sheets: 25);
        await using var db = room.Store.Open();
        await AssertRefusedAsync(() => db.Moves.ExecuteUpdateAsync(m => m.SetProperty(x => x.Quantity, 1), Cancel));
        await AssertRefusedAsync(() => db.Moves.ExecuteDeleteAsync(Cancel));
        await AssertRefusedAsync(() => db.Database.ExecuteSqlRawAsync(
            kind is RoomStore.Kind.Sqlite ? "INSERT OR REPLACE INTO move SELECT * FROM move" : "TRUNCATE move", Cancel));
        Assert.Equal(25, (await BalanceAsync(room, lot)).OnShelf);
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task A_count_moves_the_difference_and_nothing_when_it_agrees(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var lot = await StockAsync(room, sheets: 25);
        var count = new CountLot(room.Store, clock);
        var short3 = await count.RunAsync(new(CommandId.New(), Mira, lot, 22), Cancel);
        var agrees = await count.RunAsync(new(CommandId.New(), Mira, lot, 22), Cancel);
        Assert.Equal((Account.Shelf, Account.CountDifference, 3L), (short3.Value!.Move!.From, short3.Value.Move.To, short3.Value.Move.Quantity));
        Assert.Null(agrees.Value!.Move);
        Assert.Equal(22, (await BalanceAsync(room, lot)).OnShelf);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(1_000_000_000_000)]
    public async Task A_quantity_that_cannot_be_is_refused_before_anything_moves(long quantity)
    {
        await using var room = await FurnishedAsync(RoomStore.Kind.Sqlite);
        var lot = await StockAsync(room, sheets: 25);
        Assert.Equal(new NotAQuantity(quantity), (await DrawAsync(room, lot, quantity)).Refusal);
        Assert.Equal(new NotAQuantity(quantity), (await new PutAway(room.Store, clock).RunAsync(Delivery(quantity), Cancel)).Refusal);
        Assert.Equal(25, (await BalanceAsync(room, lot)).OnShelf);
    }

    private static async Task AssertRefusedAsync(Func<Task> act) =>
        Assert.Contains("only added to", (await Assert.ThrowsAnyAsync<Exception>(act)).Message, StringComparison.Ordinal);

    private async Task<FreshRoom> FurnishedAsync(RoomStore.Kind kind) => await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();

    private static PutAway.Request Delivery(long quantity) =>
        new(CommandId.New(), Mira, FreshRoom.Cotton, FreshRoom.A2, quantity, new(2027, 1, 1));

    private async Task<LotCode> StockAsync(FreshRoom room, long sheets) =>
        (await new PutAway(room.Store, clock).RunAsync(Delivery(sheets), Cancel)).Value!.Lot;

    private Task<Outcome<Moved>> DrawAsync(FreshRoom room, LotCode lot, long sheets, CommandId? wish = null) =>
        new DrawPaper(room.Store, clock).RunAsync(new(wish ?? CommandId.New(), Mira, lot, sheets, FreshRoom.Heron), Cancel);

    private static async Task<LotBalance> BalanceAsync(FreshRoom room, LotCode lot)
    {
        await using var db = room.Store.Open();
        return await db.BalanceAsync(lot, Cancel);
    }
}
