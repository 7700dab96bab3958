using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Buying;
using Goodsheet.App.Shelf;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Demo;

/// <summary>Keeps the demonstration room in paper: orders to three invented suppliers, and what comes of them when.</summary>
internal sealed class DemoSupply(DemoHand hand)
{
    private const int SecondTryDays = 5;

    private readonly List<Coming> coming = [];
    private readonly Dictionary<string, SupplierCode> codes = [];
    private int notes = 1000;

    /// <summary>The suppliers, their invented prices, and what lay on the shelf when the story begins.</summary>
    public async Task OpenAsync(DateOnly day, CancellationToken cancel)
    {
        foreach (var seller in DemoSeller.All)
        {
            codes[seller.Name] = DemoHand.Must(await hand.The<AddSupplier>().RunAsync(seller.Terms, cancel)).Supplier;
        }

        foreach (var item in DemoCast.Items.Where(i => i.Supplier is not null))
        {
            DemoHand.Must(await hand.The<SetPrice>().RunAsync(
                new(codes[item.Supplier!], item.Code, day.AddDays(-1), 1, item.Pack, DemoSeller.PriceOf(item)), cancel));
            DemoHand.Must(await hand.The<PutAway>().RunAsync(
                new(hand.Command(), hand.Anybody(), item.Code.Paper, item.Code.Format, item.IsRoll ? item.Pack : 2 * item.Pack, BestBefore(day), item.Place), cancel));
        }
    }

    public async Task MorningAsync(DateOnly day, IReadOnlyDictionary<DemoItem, long> left, CancellationToken cancel)
    {
        foreach (var delivery in coming.Where(c => c.On <= day).ToList())
        {
            coming.Remove(delivery);
            await TakeAsync(delivery, day, cancel);
        }

        foreach (var seller in DemoSeller.All)
        {
            var wanted = DemoCast.Items.Where(i => i.Supplier == seller.Name && i.Enough > 0
                && left.GetValueOrDefault(i) + coming.SelectMany(c => c.Lines).Where(l => l.Item == i).Sum(l => l.Quantity) < i.Enough).ToList();
            if (wanted.Count > 0)
            {
                await OrderAsync(seller, wanted, cancel);
            }
        }
    }

    private async Task OrderAsync(DemoSeller seller, List<DemoItem> wanted, CancellationToken cancel)
    {
        var order = DemoHand.Must(await hand.The<ProposeOrder>().RunAsync(new(hand.Command(), hand.Anybody(), codes[seller.Name]), cancel)).Order;
        foreach (var item in wanted)
        {
            // What the room's own advice put on it already is not put on twice.
            var added = await hand.The<ChangeOrder>().RunAsync(new(order, new Dictionary<int, int>(), new(item.Code, 1)), cancel);
            if (added.Refusal is not (null or ChangeOrder.IsOnIt))
            {
                DemoHand.Must(added);
            }
        }

        var promised = DemoHand.Must(await hand.The<SendOrder>().RunAsync(new(hand.Command(), hand.Anybody(), order), cancel)).PromisedOn;
        await using var db = hand.Room.Open();
        var lines = await db.PurchaseLines.AsNoTracking().Where(l => l.Order == order).OrderBy(l => l.Line).ToListAsync(cancel);
        coming.Add(new(
            seller, order, hand.Chance(seller.OnTime) ? promised : promised.AddDays(1 + hand.Random.Next(seller.MostDaysLate)),
            [.. lines.Select(l => new Line(l.Line, DemoCast.Items.Single(i => i.Code == new Room.Papers.ItemCode(l.Paper, l.Format)), l.Packs * l.PackSize))], true));
    }

    private async Task TakeAsync(Coming delivery, DateOnly day, CancellationToken cancel)
    {
        var (seller, boxes, rest) = (delivery.Seller, new List<TakeDelivery.Box>(), new List<Line>());
        foreach (var line in delivery.Lines)
        {
            if (delivery.IsFirst && boxes.Count > 0 && hand.Chance(seller.Short))
            {
                rest.Add(line); // not in the van: it comes by itself later
                continue;
            }

            var damaged = delivery.IsFirst && !line.Item.IsRoll && hand.Chance(seller.Damaged) ? 1 + hand.Random.Next(3) : 0;
            boxes.Add(new(line.Number, line.Quantity - damaged, damaged, 0, BestBefore(day), $"M{hand.Random.Next(10_000, 100_000)}"));
            if (damaged > 0)
            {
                rest.Add(line with { Quantity = damaged });
            }
        }

        DemoHand.Must(await hand.The<TakeDelivery>().RunAsync(
            new(hand.Command(), hand.Anybody(), delivery.Order, string.Create(CultureInfo.InvariantCulture, $"{seller.Name[0]}-{++notes}"), boxes), cancel));
        if (rest.Count > 0)
        {
            coming.Add(new(seller, delivery.Order, day.AddDays(SecondTryDays), rest, false));
        }
    }

    private DateOnly BestBefore(DateOnly day) => day.AddDays(600 + hand.Random.Next(200));

    private sealed record Line(int Number, DemoItem Item, long Quantity);

    private sealed record Coming(DemoSeller Seller, int Order, DateOnly On, IReadOnlyList<Line> Lines, bool IsFirst);
}
