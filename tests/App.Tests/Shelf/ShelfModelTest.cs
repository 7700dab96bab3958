using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Shelf;

/// <summary>Many seeded commands, wise and foolish, against a shelf that is a dictionary.</summary>
public sealed class ShelfModelTest
{
    private const int Seed = 20261125;
    private const int LookEvery = 250;

    private static readonly int Commands = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 10_000 : 1_500;
    private static readonly PersonName Mira = new("Mira");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private readonly Random random = new(Seed);
    private readonly Dictionary<LotCode, (long Shelf, long Printer)> model = [];
    private readonly List<Func<Task<bool>>> replays = [];

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Balances_agree_sums_are_zero_no_lot_is_below_nothing_and_replays_change_nothing()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        await PutAwayAsync(room.Store, 25);
        for (var i = 1; i <= Commands; i++)
        {
            clock.Advance(TimeSpan.FromSeconds(random.Next(600)));
            await OneAsync(room.Store);
            if (i % LookEvery == 0 || i == Commands)
            {
                await AgreesAsync(room.Store, i);
            }
        }
    }

    private async Task OneAsync(RoomStore store)
    {
        var lot = model.Keys.ElementAt(random.Next(model.Count));
        var (shelf, printer) = model[lot];
        var quantity = random.Next(-1, 12);
        switch (random.Next(8))
        {
            case 0:
                await PutAwayAsync(store, quantity);
                break;
            case 1 or 2:
                var draw = new DrawPaper.Request(CommandId.New(), Mira, lot, quantity, FreshRoom.Heron);
                await AskAsync(() => new DrawPaper(store, clock).RunAsync(draw, Cancel), quantity > 0 && quantity <= shelf, () => model[lot] = (shelf - quantity, printer + quantity));
                break;
            case 3:
                var spoil = new SpoilPaper.Request(CommandId.New(), Mira, lot, quantity, WasteCause.Curl);
                await AskAsync(() => new SpoilPaper(store, clock).RunAsync(spoil, Cancel), quantity > 0 && quantity <= shelf, () => model[lot] = (shelf - quantity, printer));
                break;
            case 4:
                var back = new SendBackPaper.Request(CommandId.New(), Mira, lot, quantity, "damp");
                await AskAsync(() => new SendBackPaper(store, clock).RunAsync(back, Cancel), quantity > 0 && quantity <= shelf, () => model[lot] = (shelf - quantity, printer));
                break;
            case 5:
                var test = new UseForTests.Request(CommandId.New(), Mira, lot, quantity);
                await AskAsync(() => new UseForTests(store, clock).RunAsync(test, Cancel), quantity > 0 && quantity <= shelf, () => model[lot] = (shelf - quantity, printer));
                break;
            case 6:
                var count = new CountLot.Request(CommandId.New(), Mira, lot, quantity);
                await AskAsync(() => new CountLot(store, clock).RunAsync(count, Cancel), quantity >= 0, () => model[lot] = (quantity, printer));
                break;
            case 7 when replays.Count > 0:
                Assert.True(await replays[random.Next(replays.Count)]()); // the same wish again: granted again, and nothing moves
                break;
        }
    }

    private async Task PutAwayAsync(RoomStore store, long quantity)
    {
        var request = new PutAway.Request(CommandId.New(), Mira, FreshRoom.Cotton, FreshRoom.A2, quantity, new(2028, 1, 31));
        var done = await new PutAway(store, clock).RunAsync(request, Cancel);
        Assert.Equal(quantity > 0, done.Granted);
        if (done.Value is { } put)
        {
            model.Add(put.Lot, (quantity, 0));
            replays.Add(async () => (await new PutAway(store, clock).RunAsync(request, Cancel)).Value?.Lot == put.Lot);
        }
    }

    private async Task AskAsync(Func<Task<Outcome<Moved>>> ask, bool granted, Action change)
    {
        var answer = await ask();
        Assert.Equal(granted, answer.Granted);
        if (granted)
        {
            change();
            replays.Add(async () => (await ask()).Granted);
        }
    }

    private async Task AgreesAsync(RoomStore store, int after)
    {
        await using var db = store.Open();
        var lines = await ShelfLines.Of(db).ToDictionaryAsync(l => l.Lot, l => l.OnShelf, Cancel);
        Assert.Equal(model.Count, lines.Count);
        foreach (var (lot, (shelf, printer)) in model)
        {
            var balance = await db.BalanceAsync(lot, Cancel);
            Assert.True((shelf, printer, shelf) == (balance.OnShelf, balance.Of(Account.At(FreshRoom.Heron)), lines[lot]), $"lot {lot} after {after} commands of seed {Seed}");
            // The whole fold, without checkpoints, says the same; every account's ins and outs together are nothing.
            var moves = await db.Moves.AsNoTracking().Where(m => m.Lot == lot).OrderBy(m => m.Number).ToListAsync(Cancel);
            var whole = moves.Aggregate(LotBalance.Nothing(lot), (sofar, move) => sofar.After(move));
            Assert.Equal((balance.OnShelf, balance.Through), (whole.OnShelf, whole.Through));
            var accounts = moves.SelectMany(m => new[] { (m.From, -m.Quantity), (m.To, m.Quantity) }).GroupBy(a => a.Item1, a => a.Item2).ToDictionary(g => g.Key, g => g.Sum());
            Assert.Equal(0, accounts.Values.Sum());
            Assert.All(accounts.Where(a => a.Key.Holds), a => Assert.True(a.Value >= 0));
        }
    }
}
