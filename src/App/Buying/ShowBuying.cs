using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Buying;

/// <summary>What to order before which cut-off, what is on the way, and the suppliers.</summary>
public sealed class ShowBuying(RoomStore room, TimeProvider clock)
{
    private const int ShownOrders = 50;

    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var advice = await db.AdviceAsync(clock, cancel);
        var deliveries = (await db.Deliveries.AsNoTracking().ToListAsync(cancel)).ToLookup(d => d.Supplier);
        var all = DeliveryRecord.Of(deliveries.SelectMany(d => d));
        var orders = await db.Purchases.AsNoTracking().OrderByDescending(p => p.Number).Take(ShownOrders).ToListAsync(cancel);
        var numbers = orders.Select(o => o.Number).ToList();
        var lines = (await db.PurchaseLines.AsNoTracking().Where(l => numbers.Contains(l.Order)).ToListAsync(cancel)).ToLookup(l => l.Order);
        var pieces = await db.PurchasePieces.Where(l => numbers.Contains(l.Order)).GroupBy(l => l.Order).Select(g => new { g.Key, Count = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Count, cancel);
        var low = advice.Lines.Where(l => l.Reorder.Packs > 0).ToLookup(l => l.Sending.Supplier.Code);
        return new(
            advice.Now,
            advice.Today,
            [.. advice.Sendings.Values.Where(s => s.Ways.Count > 0).Select(s => new SupplierLine(
                s, s.Promise(advice.Now), DeliveryRecord.Of(deliveries[s.Supplier.Code]), DeliveryRecord.Of(deliveries[s.Supplier.Code]).Among(all), [.. low[s.Supplier.Code].Select(BuyLine.Of)],
                [.. advice.Pieces.Where(p => p.Pieces > 0 && p.Sending.Supplier.Code == s.Supplier.Code).Select(p => p.Shown)]))
                .OrderByDescending(s => s.Lines > 0).ThenBy(s => s.Promise.CutOff)],
            [.. advice.Needs.Where(n => n.Item.Supplier is null).Select(n => new LooseItem(n.Item, n.Paper))],
            [.. orders.Select(o => new OrderLine(o, advice.Sendings[o.Supplier].Supplier.Name, lines[o.Number].Count() + pieces.GetValueOrDefault(o.Number)))]);
    }

    public sealed record Page(
        DateTimeOffset Now, DateOnly Today, IReadOnlyList<SupplierLine> Suppliers, IReadOnlyList<LooseItem> WithoutSupplier, IReadOnlyList<OrderLine> Orders);

    public sealed record SupplierLine(
        Sending Sending, Promise Promise, DeliveryRecord Record, SupplierStanding Standing, IReadOnlyList<BuyLine> ToOrder,
        IReadOnlyList<PiecesBuyLine> Pieces)
    {
        public int Lines => ToOrder.Count + Pieces.Count;
    }

    public sealed record LooseItem(Item Item, string Paper);

    public sealed record OrderLine(PurchaseOrder Order, string Supplier, int Lines);
}

/// <summary>An item that should be on the next order, and why.</summary>
public sealed record BuyLine(ItemCode Item, string Paper, bool IsRoll, int Packs, long Pack, DateOnly? UnderReserveOn, string Why)
{
    internal static BuyLine Of(Advice.Line line) => new(
        line.Need.Item.Code, line.Need.Paper, line.Need.Format.IsRoll, line.Reorder.Packs, line.Need.Of.Pack, line.Reorder.UnderReserveOn, line.Reorder.Why());
}

/// <summary>How a supplier kept its word.</summary>
public sealed record DeliveryRecord(int Deliveries, int OnTime, int Complete)
{
    internal SupplierStanding Among(DeliveryRecord all) => SupplierStanding.Of((Deliveries, OnTime, Complete), (all.Deliveries, all.OnTime, all.Complete));

    internal static DeliveryRecord Of(IEnumerable<Delivery> deliveries)
    {
        var all = deliveries.ToList();
        return new(all.Count, all.Count(d => d.DaysLate <= 0), all.Count(d => d.Complete));
    }
}
