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
        var pieces = await db.PurchasePieces.AsNoTracking().Where(l => l.Order == number).OrderBy(l => l.Line).ToListAsync(cancel);
        var consumables = await db.Consumables.AsNoTracking().ToDictionaryAsync(c => c.Code, cancel);
        var onPieces = pieces.Select(p => p.Consumable).ToHashSet();
        var needs = advice.Needs.ToDictionary(n => n.Item.Code);
        var on = lines.Select(l => new ItemCode(l.Paper, l.Format)).ToHashSet();
        return new(
            advice.Now,
            order,
            sending,
            way,
            sending.Clock.Promise(way, advice.Now),
            [.. lines.Select(l => LineOf(l, needs.GetValueOrDefault(new(l.Paper, l.Format))))],
            [.. pieces.Select(p => new Pieces(p, consumables[p.Consumable].Name, consumables[p.Consumable].Place))],
            [.. advice.Lines.Where(l => l.Sending.Supplier.Code == order.Supplier && !on.Contains(l.Need.Item.Code)).Select(BuyLine.Of).OrderBy(l => l.UnderReserveOn ?? DateOnly.MaxValue)],
            [.. advice.Pieces.Where(p => p.Sending.Supplier.Code == order.Supplier && !onPieces.Contains(p.Stock.Consumable.Code)).Select(p => p.Shown)],
            [.. (await db.Deliveries.AsNoTracking().Where(d => d.Order == number).ToListAsync(cancel)).OrderBy(d => d.CameOn)],
            (await db.Settings.AsNoTracking().SingleAsync(cancel)).Name);

        Line LineOf(PurchaseLine line, Need? need) => new(
            line, papers[line.Paper], formats[line.Format].IsRoll, places.GetValueOrDefault(new(line.Paper, line.Format)) ?? "", need?.Of.OnShelf ?? 0,
            order.State is PurchaseState.Proposed && need is { Prices: { Count: > 0 } prices } ? PriceList.NextBreak(prices, line.Packs) : null);
    }

    public sealed record Page(
        DateTimeOffset Now, PurchaseOrder Order, Sending Sending, Dispatch Way, Promise Promise, IReadOnlyList<Line> Lines, IReadOnlyList<Pieces> Pieces,
        IReadOnlyList<BuyLine> LeftOut, IReadOnlyList<PiecesBuyLine> LeftOutPieces, IReadOnlyList<Delivery> Deliveries, string Room)
    {
        /// <summary>Without carriage; none when a line has no price.</summary>
        public decimal? Sum => Prices.All(p => p is not null) && Prices.Any() ? Lines.Sum(l => l.Of.Sum) + Pieces.Sum(p => p.Of.Sum) : null;


        /// <summary>What is still to come, line by line.</summary>
        public IReadOnlyList<Awaited> Awaited =>
        [
            .. Lines.Select(l => new Awaited(l.Of.Line, $"{l.Paper}, {l.Of.Format}", l.Of.Missing, l.IsRoll, false, l.Place)),
            .. Pieces.Select(p => new Awaited(p.Of.Line, p.Name, p.Of.Missing, false, true, p.Place)),
        ];

        private IEnumerable<decimal?> Prices => Lines.Select(l => l.Of.Price).Concat(Pieces.Select(p => p.Of.Price));

        public decimal? Carriage => Sum is not { } sum ? null : Sending.Supplier.CarriageFreeFrom <= sum ? 0 : Sending.Supplier.Carriage;
    }

    /// <summary>A consumable on the order.</summary>
    public sealed record Pieces(PiecesLine Of, string Name, string Place);

    /// <param name="Missing">Sheets, mm or pieces.</param>
    public sealed record Awaited(int Line, string What, long Missing, bool IsRoll, bool IsPieces, string Place);

    /// <param name="Of">The line as it stands.</param>
    /// <param name="NextBreak">The number of packs at which each costs less.</param>
    public sealed record Line(PurchaseLine Of, string Paper, bool IsRoll, string Place, long OnShelf, int? NextBreak);
}
