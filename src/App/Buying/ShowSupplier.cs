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

        var deliveries = await db.Deliveries.AsNoTracking().Where(d => d.Supplier == code).ToListAsync(cancel);
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
            [.. deliveries.OrderByDescending(d => d.CameOn).Take(ShownDeliveries)]);
    }

    public sealed record Page(
        DateTimeOffset Now, DateOnly Today, Sending Sending, IReadOnlyList<(Dispatch Way, Promise Promise)> Ways, IReadOnlyList<SupplierClosure> Closures,
        IReadOnlyList<PriceLine> Prices, IReadOnlyList<ItemLine> Items, DeliveryRecord Record, IReadOnlyList<Delivery> Deliveries);

    public sealed record ItemLine(Item Item, string Paper, bool IsRoll);
}
