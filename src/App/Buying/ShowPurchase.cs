using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Buying;

/// <summary>One order to a supplier: its lines and reasons, what it comes to, when it comes, what came, and what was left out.</summary>
public sealed class ShowPurchase(RoomStore room, TimeProvider clock)
{
    public async Task<Page?> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var order = await db.Purchases.AsNoTracking().SingleOrDefaultAsync(p => p.Number == number, cancel);
        if (order is null)
        {
            return null;
        }

        var advice = await db.AdviceAsync(clock, cancel);
        var sending = advice.Sendings[order.Supplier];
        var way = sending.Ways.FirstOrDefault(w => w.Name == order.Way) ?? sending.Usual;
        var papers = await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, p => p.Name, cancel);
        var formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel);
        var places = await db.Items.AsNoTracking().ToDictionaryAsync(i => i.Code, i => i.Place, cancel);
        var lines = await db.PurchaseLines.AsNoTracking().Where(l => l.Order == number).OrderBy(l => l.Line).ToListAsync(cancel);
        var needs = advice.Needs.ToDictionary(n => n.Item.Code);
        var on = lines.Select(l => new ItemCode(l.Paper, l.Format)).ToHashSet();
        return new(
            advice.Now,
            order,
            sending,
            way,
            sending.Clock.Promise(way, advice.Now),
            [.. lines.Select(l => LineOf(l, needs.GetValueOrDefault(new(l.Paper, l.Format))))],
            [.. advice.Lines.Where(l => l.Sending.Supplier.Code == order.Supplier && !on.Contains(l.Need.Item.Code)).Select(BuyLine.Of).OrderBy(l => l.UnderReserveOn ?? DateOnly.MaxValue)],
            [.. (await db.Deliveries.AsNoTracking().Where(d => d.Order == number).ToListAsync(cancel)).OrderBy(d => d.CameOn)],
            (await db.Settings.AsNoTracking().SingleAsync(cancel)).Name);

        Line LineOf(PurchaseLine line, Need? need) => new(
            line, papers[line.Paper], formats[line.Format].IsRoll, places.GetValueOrDefault(new(line.Paper, line.Format)) ?? "", need?.Of.OnShelf ?? 0,
            order.State is PurchaseState.Proposed && need is { Prices: { Count: > 0 } prices } ? PriceList.NextBreak(prices, line.Packs) : null);
    }

    public sealed record Page(
        DateTimeOffset Now, PurchaseOrder Order, Sending Sending, Dispatch Way, Promise Promise, IReadOnlyList<Line> Lines,
        IReadOnlyList<BuyLine> LeftOut, IReadOnlyList<Delivery> Deliveries, string Room)
    {
        /// <summary>Without carriage; none when a line has no price.</summary>
        public decimal? Sum => Lines.All(l => l.Of.Price is not null) && Lines.Count > 0 ? Lines.Sum(l => l.Of.Sum) : null;

        public decimal? Carriage => Sum is not { } sum ? null : Sending.Supplier.CarriageFreeFrom <= sum ? 0 : Sending.Supplier.Carriage;
    }

    /// <param name="Of">The line as it stands.</param>
    /// <param name="NextBreak">The number of packs at which each costs less.</param>
    public sealed record Line(PurchaseLine Of, string Paper, bool IsRoll, string Place, long OnShelf, int? NextBreak);
}
