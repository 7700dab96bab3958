using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Shelf;

/// <summary>Inks and all else that is used up: first to expire first, never below nothing, once for each wish.</summary>
public sealed class ConsumablesTest(PostgresServer postgres)
{
    private static readonly PersonName Mira = new("Mira");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task The_cartridge_that_expires_first_goes_into_the_printer_and_the_one_before_it_is_done_with(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var ink = await InkAsync(room, "matte black");
        await MoveAsync(room, ink, MoveConsumable.Doing.PutAway, 2, new(2028, 1, 1));
        await MoveAsync(room, ink, MoveConsumable.Doing.PutAway, 1, new(2027, 1, 1));
        var first = await MoveAsync(room, ink, MoveConsumable.Doing.Take, 1);
        Assert.Equal(2, Assert.Single(first.Value!.Moves).Lot); // came later, expires earlier
        var second = (await MoveAsync(room, ink, MoveConsumable.Doing.Take, 1)).Value!;
        Assert.Equal([(2, Account.Used), (1, Account.At(FreshRoom.Heron))], second.Moves.Select(m => (m.Lot, m.To)));
        Assert.Equal(1, second.Left);
        var stock = (await new ShowConsumables(room.Store, clock).OneAsync(ink, Cancel))!.Stock;
        Assert.Equal((1, 1, true), (stock.Left, stock.InPrinter!.Value.Lot, stock.IsLow));
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task Of_two_who_take_the_last_one_gets_it(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var gloves = (await new KeepConsumable(room.Store).RunAsync(new(null, "Cotton gloves", ConsumableKind.Gloves, null, "", 0, 2, "", null), Cancel)).Value!.Consumable;
        await MoveAsync(room, gloves, MoveConsumable.Doing.PutAway, 1);
        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => MoveAsync(room, gloves, MoveConsumable.Doing.Take, 1))));
        Assert.Single(answers, a => a.Granted);
        Assert.All(answers.Where(a => !a.Granted), a => Assert.Equal(new NotEnoughPieces("Cotton gloves", 1, 0), a.Refusal));
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task What_is_written_of_consumables_stays(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        var ink = await InkAsync(room, "cyan");
        await MoveAsync(room, ink, MoveConsumable.Doing.PutAway, 2);
        await using var db = room.Store.Open();
        Assert.Contains("only added to", (await Assert.ThrowsAnyAsync<Exception>(() => db.ConsumableMoves.ExecuteDeleteAsync(Cancel))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Old_ink_is_refused_until_somebody_says_so_and_a_wish_is_done_once()
    {
        await using var room = await FurnishedAsync(RoomStore.Kind.Sqlite);
        var ink = await InkAsync(room, "cyan");
        var wish = CommandId.New();
        var request = new MoveConsumable.Request(wish, Mira, ink, MoveConsumable.Doing.PutAway, 2, new(2026, 3, 10));
        await new MoveConsumable(room.Store, clock).RunAsync(request, Cancel);
        await new MoveConsumable(room.Store, clock).RunAsync(request, Cancel);
        Assert.IsType<CommandUsedOtherwise>((await new MoveConsumable(room.Store, clock).RunAsync(request with { Quantity = 3 }, Cancel)).Refusal);
        clock.Advance(TimeSpan.FromDays(30));
        Assert.Equal(new PastItsDate("Heron cyan", 0), (await MoveAsync(room, ink, MoveConsumable.Doing.Take, 1)).Refusal);
        var taken = await new MoveConsumable(room.Store, clock).RunAsync(new(CommandId.New(), Mira, ink, MoveConsumable.Doing.Take, 1, PastItsDate: true), Cancel);
        Assert.Equal(1, taken.Value!.Left);
        Assert.IsType<OneAtATime>((await MoveAsync(room, ink, MoveConsumable.Doing.Take, 2)).Refusal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(1_000_000_000_000)]
    public async Task A_quantity_that_cannot_be_is_refused(long quantity)
    {
        await using var room = await FurnishedAsync(RoomStore.Kind.Sqlite);
        var ink = await InkAsync(room, "cyan");
        Assert.Equal(new MoveConsumable.NotSoManyPieces(quantity), (await MoveAsync(room, ink, MoveConsumable.Doing.PutAway, quantity)).Refusal);
        Assert.Equal(new MoveConsumable.NotSoManyPieces(quantity), (await MoveAsync(room, ink, MoveConsumable.Doing.Take, quantity)).Refusal);
    }

    private async Task<FreshRoom> FurnishedAsync(RoomStore.Kind kind) => await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();

    private static async Task<ConsumableCode> InkAsync(FreshRoom room, string channel) =>
        (await new KeepConsumable(room.Store).RunAsync(new(null, $"Heron {channel}", ConsumableKind.Ink, FreshRoom.Heron, channel, 80, 1, "", null), Cancel)).Value!.Consumable;

    private Task<Outcome<MoveConsumable.Done>> MoveAsync(FreshRoom room, ConsumableCode code, MoveConsumable.Doing what, long quantity, DateOnly? best = null) =>
        new MoveConsumable(room.Store, clock).RunAsync(new(CommandId.New(), Mira, code, what, quantity, best), Cancel);
}
