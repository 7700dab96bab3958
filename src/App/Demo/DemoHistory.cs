using Goodsheet.App.Orders;
using Goodsheet.App.Shelf;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Demo;

/// <summary>Lives through half a year in the demonstration room, a working day at a time.</summary>
internal sealed class DemoHistory(DemoHand hand, DemoDesk desk, DemoSupply supply)
{
    public const int Days = 182;

    private readonly List<DemoDesk.Waiting> waiting = [];
    private readonly HashSet<string> profiled = [];
    private readonly DemoStrips strips = new(hand);
    private readonly DemoBooks books = new(hand);
    private readonly Queue<(int Order, DateOnly On)> printed = new();
    private bool booksAreOpen;

    /// <summary>From the first day to the evening before today.</summary>
    public async Task LiveAsync(DateOnly today, IProgress<double> told, CancellationToken cancel)
    {
        var first = today.AddDays(-Days);
        hand.Clock.Set(first, 9);
        await supply.OpenAsync(first, cancel);
        for (var day = first.AddDays(1); day < today; day = day.AddDays(1))
        {
            await ProfilesOfAsync(day, today, cancel);
            await strips.OfDayAsync(day, today, cancel);
            if (!booksAreOpen && day >= today.AddDays(-DemoBooks.QuotedDays))
            {
                await books.OpenAsync(cancel);
                booksAreOpen = true;
            }

            if (day.DayOfWeek is not (DayOfWeek.Saturday or DayOfWeek.Sunday))
            {
                await WorkAsync(day, cancel);
            }

            told.Report(1 - ((today.DayNumber - day.DayNumber) / (double)Days));
        }

        // Nobody leaves for the night with an order unprinted: what Today shows is today's.
        foreach (var order in waiting)
        {
            await desk.PrintAsync(order, await LotsAsync(order.Item, cancel), cancel);
        }
    }

    private async Task ProfilesOfAsync(DateOnly day, DateOnly today, CancellationToken cancel)
    {
        foreach (var condition in DemoCast.Conditions.Where(c => today.AddDays(-c.DaysAgo) == day))
        {
            hand.Clock.Set(day, 10);
            await hand.MakeProfileAsync(condition, cancel);
            hand.Clock.Set(day, 15);
            await hand.TrustAsync("A print beside the screen agrees, and its greys are neutral.", cancel);
            profiled.Add(condition.Paper);
        }
    }

    private async Task WorkAsync(DateOnly day, CancellationToken cancel)
    {
        hand.Clock.Set(day, 8.6);
        var shelf = await ShelfAsync(cancel);
        await supply.MorningAsync(day, DemoCast.Items.ToDictionary(
            i => i, i => shelf.Where(l => l.Paper == i.Code.Paper && l.Format == i.Code.Format).Sum(l => l.OnShelf)), cancel);
        hand.Clock.Set(day, 9.2);
        foreach (var order in waiting.Where(w => w.From <= day).ToList())
        {
            if (await desk.PrintAsync(order, await LotsAsync(order.Item, cancel), cancel))
            {
                waiting.Remove(order);
                printed.Enqueue((order.Order, day));
            }
        }

        await HandOutAsync(day, cancel);

        hand.Clock.Set(day, 14);
        for (var i = hand.Random.Next(3); i > 0; i--)
        {
            var item = desk.AnItem();
            if (profiled.Contains(item.Paper))
            {
                var promised = hand.Clock.At(WorkingDay(day.AddDays(3 + hand.Random.Next(4))), hand.Chance(0.5) ? 12 : 17);
                var order = await desk.OrderAsync(item, promised, 1 + hand.Random.Next(item.IsRoll ? 2 : 5), null, cancel);
                waiting.Add(new(order, item, WorkingDay(day.AddDays(1 + hand.Random.Next(2)))));
                if (booksAreOpen)
                {
                    await books.QuoteAsync(order, cancel);
                }
            }
        }

        if (day.DayOfWeek is DayOfWeek.Friday)
        {
            hand.Clock.Set(day, 16.5);
            await CountAsync(cancel);
        }
    }

    // Clients come for their prints a day or two after; the last ones are still here today.
    private async Task HandOutAsync(DateOnly day, CancellationToken cancel)
    {
        while (printed.TryPeek(out var next) && next.On.AddDays(1) < day)
        {
            DemoHand.Must(await hand.The<HandOutOrder>().RunAsync(new(new(DemoCast.Keeper), next.Order, HandOut.Collected, "the client"), cancel));
            printed.Dequeue();
        }
    }

    // Three lots a week; now and then one is not what the ledger says, and a sheet is found damaged.
    private async Task CountAsync(CancellationToken cancel)
    {
        var lots = await ShelfAsync(cancel);
        for (var i = 0; i < 3; i++)
        {
            var lot = lots[hand.Random.Next(lots.Count)];
            var roll = lot.Format.Value.StartsWith("roll", StringComparison.Ordinal);
            var off = hand.Chance(0.8) ? 0 : hand.Chance(0.7) ? -1 : 1;
            DemoHand.Must(await hand.The<CountLot>().RunAsync(
                new(hand.Command(), hand.Anybody(), lot.Lot, Math.Max(0, lot.OnShelf + (off * (roll ? 120 : 1)))), cancel));
        }

        if (hand.Chance(0.2) && lots.Where(l => !l.Format.Value.StartsWith("roll", StringComparison.Ordinal) && l.OnShelf > 2).ToList() is { Count: > 0 } sheets)
        {
            var lot = sheets[hand.Random.Next(sheets.Count)];
            DemoHand.Must(await hand.The<SpoilPaper>().RunAsync(
                new(hand.Command(), hand.Anybody(), lot.Lot, 1, WasteCause.Handling, "a corner was bent in the drawer"), cancel));
        }
    }

    private async Task<IReadOnlyList<LotCode>> LotsAsync(DemoItem item, CancellationToken cancel) =>
        [.. (await ShelfAsync(cancel)).Where(l => l.Paper == item.Code.Paper && l.Format == item.Code.Format)
            .OrderBy(l => l.GoodUntil ?? DateOnly.MaxValue).ThenBy(l => l.Lot.Value, StringComparer.Ordinal).Select(l => l.Lot)];

    private async Task<IReadOnlyList<ShelfLines.Line>> ShelfAsync(CancellationToken cancel) =>
        [.. (await hand.The<ShowShelf>().RunAsync(new(), cancel)).Lots.OrderBy(l => l.Lot.Value, StringComparer.Ordinal)];

    private static DateOnly WorkingDay(DateOnly day) => day.AddDays(day.DayOfWeek switch { DayOfWeek.Saturday => 2, DayOfWeek.Sunday => 1, _ => 0 });
}
