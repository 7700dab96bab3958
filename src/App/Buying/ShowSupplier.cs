using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Buying;

/// <summary>One supplier: its terms, its clock, closed days, prices, and how it kept its word.</summary>
public sealed class ShowSupplier(RoomStore room, TimeProvider clock)
{
    private const int ShownDeliveries = 40;

    public async Task<Page?> RunAsync(SupplierCode code, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var (now, today) = (clock.GetUtcNow(), clock.Today());
        if (!(await db.ClocksAsync(today, cancel)).TryGetValue(code, out var sending))
        {
            return null;
        }

        var every = await db.Deliveries.AsNoTracking().ToListAsync(cancel);
        List<Delivery> deliveries = [.. every.Where(d => d.Supplier == code)];
        var advice = await db.AdviceAsync(clock, cancel);
        var late = advice.Lines.Where(l => l.Sending.Supplier.Code == code).Sum(l => Lateness(l, today));
        var items = await (
            from item in db.Items.AsNoTracking()
            join paper in db.Papers on item.Paper equals paper.Code
            join format in db.Formats on item.Format equals format.Code
            orderby paper.Name, format.Order
            select new ItemLine(item, paper.Name, format.IsRoll)).ToListAsync(cancel);
        return new(
            now,
            today,
            sending,
            [.. sending.Ways.Select(w => (w, sending.Clock.Promise(w, now)))],
            await db.Closures.AsNoTracking().Where(c => c.Supplier == code && c.Day >= today).OrderBy(c => c.Day).ToListAsync(cancel),
            await db.Prices.AsNoTracking().Where(p => p.Supplier == code).OrderBy(p => p.Paper).ThenBy(p => p.Format).ThenBy(p => p.From).ThenBy(p => p.FromPacks).ToListAsync(cancel),
            items,
            DeliveryRecord.Of(deliveries),
            DeliveryRecord.Of(deliveries).Among(DeliveryRecord.Of(every)),
            late,
            [.. deliveries.OrderByDescending(d => d.CameOn).Take(ShownDeliveries)]);
    }

    /// <summary>What an item's order level is higher because the supplier is late, in money.</summary>
    private static decimal Lateness(Advice.Line line, DateOnly today)
    {
        var punctual = Reorder.Of(line.Need.Of, line.Reorder.Promise, today, Advice.FillRate, Room.Buying.Lateness.Never);
        return (line.Reorder.Level.Point - punctual.Level.Point) * (PriceList.PriceOf(line.Need.Prices, 1) ?? 0) / line.Need.Of.Pack;
    }

    /// <param name="LatenessCosts">What stands on the shelf because deliveries are late, in money, where a price is written down.</param>
    public sealed record Page(
        DateTimeOffset Now, DateOnly Today, Sending Sending, IReadOnlyList<(Dispatch Way, Promise Promise)> Ways, IReadOnlyList<SupplierClosure> Closures,
        IReadOnlyList<PriceLine> Prices, IReadOnlyList<ItemLine> Items, DeliveryRecord Record, SupplierStanding Standing, decimal LatenessCosts,
        IReadOnlyList<Delivery> Deliveries);

    public sealed record ItemLine(Item Item, string Paper, bool IsRoll);
}
