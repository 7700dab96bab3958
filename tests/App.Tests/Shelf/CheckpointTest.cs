using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Shelf;

/// <summary>Kept balances are only speed: over random commands on few, long-lived lots they say what every move together says.</summary>
public sealed class CheckpointTest(PostgresServer postgres)
{
    private const int Seed = 20261126;
    private const int LookEvery = 20;

    private static readonly int Commands = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 3_000 : 400;
    private static readonly PersonName Mira = new("Mira");
    private static readonly PersonName Tom = new("Tom");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task Balances_with_checkpoints_are_the_fold_over_all_moves_and_so_is_the_shelf(RoomStore.Kind kind)
    {
        await using var room = await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();
        var random = new Random(Seed);
        var lots = new List<LotCode>();
        for (var i = 0; i < 3; i++)
        {
            lots.Add(await PutAwayAsync(room, 12));
        }

        for (var i = 1; i <= Commands; i++)
        {
            clock.Advance(TimeSpan.FromMinutes(random.Next(1, 90)));
            await OneAsync(room.Store, lots[random.Next(lots.Count)], random);
            if (i % LookEvery == 0)
            {
                await AgreesAsync(room.Store, i);
            }
        }

        await using var db = room.Store.Open();
        Assert.Equal(lots.Count, await db.Checkpoints.CountAsync(Cancel));
        await db.Checkpoints.ExecuteDeleteAsync(Cancel); // thrown away, nothing is lost
        await AgreesAsync(room.Store, Commands);
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task Of_two_people_who_draw_the_last_sheet_at_once_one_gets_it_and_the_other_is_told_that_none_is_left(RoomStore.Kind kind)
    {
        await using var room = await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();
        var lot = await PutAwayAsync(room, 1);
        var answers = await Task.WhenAll(((PersonName[])[Mira, Tom]).Select(who => Task.Run(() =>
            new DrawPaper(room.Store, clock).RunAsync(new(CommandId.New(), who, lot, 1, FreshRoom.Heron), Cancel))));

        var got = Assert.Single(answers, a => a.Granted).Value!.Move!;
        var refused = Assert.Single(answers, a => !a.Granted);
        Assert.Equal(new NotEnough(lot, Account.Shelf, 1, 0), refused.Refusal);
        Assert.Equal($"Lot {lot} has only 0 on the shelf, you asked for 1. Nothing was moved.", refused.Refusal!.Message);
        await using var db = room.Store.Open();
        Assert.Equal([got.By], await db.Moves.Where(m => m.Lot == lot && m.From == Account.Shelf).Select(m => m.By).ToListAsync(Cancel));
        Assert.Empty(await ShelfLines.Left(db).ToListAsync(Cancel));
    }

    private async Task OneAsync(RoomStore store, LotCode lot, Random random)
    {
        var quantity = random.Next(1, 7);
        // Granted or refused, both are fine: what the ledger says of it is looked at after.
        _ = random.Next(5) switch
        {
            0 => await new CountLot(store, clock).RunAsync(new(CommandId.New(), Mira, lot, random.Next(0, 15)), Cancel),
            1 => await new SpoilPaper(store, clock).RunAsync(new(CommandId.New(), Mira, lot, quantity, WasteCause.Curl), Cancel),
            2 => await new UseForTests(store, clock).RunAsync(new(CommandId.New(), Mira, lot, quantity), Cancel),
            _ => await new DrawPaper(store, clock).RunAsync(new(CommandId.New(), Mira, lot, quantity, FreshRoom.Heron), Cancel),
        };
    }

    private static async Task AgreesAsync(RoomStore store, int after)
    {
        await using var db = store.Open();
        var moves = await db.Moves.AsNoTracking().OrderBy(m => m.Lot).ThenBy(m => m.Number).ToListAsync(Cancel);
        var whole = moves.GroupBy(m => m.Lot).ToDictionary(g => g.Key, g => g.Aggregate(LotBalance.Nothing(g.Key), (sofar, move) => sofar.After(move)));
        foreach (var (lot, full) in whole)
        {
            var kept = await db.BalanceAsync(lot, Cancel);
            Assert.True((full.Through, full.OnShelf) == (kept.Through, kept.OnShelf), $"lot {lot} after {after} commands of seed {Seed}");
            Assert.Equal(full.AtPrinters, kept.AtPrinters);
        }

        Assert.Equal(whole.ToDictionary(w => w.Key, w => w.Value.OnShelf), await ShelfLines.Of(db).ToDictionaryAsync(l => l.Lot, l => l.OnShelf, Cancel));
        Assert.Equal(
            whole.Where(w => w.Value.OnShelf > 0).ToDictionary(w => w.Key, w => w.Value.OnShelf),
            await ShelfLines.Left(db).ToDictionaryAsync(l => l.Lot, l => l.OnShelf, Cancel));
    }

    private async Task<LotCode> PutAwayAsync(FreshRoom room, long sheets) =>
        (await new PutAway(room.Store, clock).RunAsync(new(CommandId.New(), Mira, FreshRoom.Cotton, FreshRoom.A2, sheets, new(2028, 1, 1)), Cancel)).Value!.Lot;
}
