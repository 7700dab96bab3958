using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Buying;

/// <summary>What of inks, tanks, blades and the rest should be ordered now: by the rule that orders paper, with the level the room set as what is to stay.</summary>
internal static class PiecesNeeds
{
    private const int LeastDays = 28;
    private const double DaysOfAMonth = 365 / 12.0;

    /// <summary>Of those that are bought from a supplier with a way of sending.</summary>
    public static async Task<IReadOnlyList<PiecesNeed>> PiecesAsync(
        this RoomDb db, IReadOnlyDictionary<SupplierCode, Sending> sendings, TimeProvider clock, CancellationToken cancel)
    {
        var today = clock.Today();
        var coming = (await (
            from line in db.PurchasePieces.AsNoTracking()
            join order in db.Purchases on line.Order equals order.Number
            where order.State == PurchaseState.Sent || order.State == PurchaseState.PartDelivered
            select line).ToListAsync(cancel)).ToLookup(l => l.Consumable, l => l.Missing);
        var taken = (await db.ConsumableMoves.AsNoTracking().Where(m => m.From == Account.Shelf && m.To != Account.CountDifference).ToListAsync(cancel)).ToLookup(m => m.Consumable);
        return [.. (await db.ConsumableStocksAsync(cancel))
            .Where(s => s.Consumable.Supplier is { } supplier && sendings[supplier].Ways.Count > 0)
            .OrderBy(s => s.Consumable.Name, StringComparer.CurrentCulture)
            .Select(s => Of(s, coming[s.Consumable.Code].Sum(), taken[s.Consumable.Code], sendings[s.Consumable.Supplier!.Value]))];

        PiecesNeed Of(ConsumableStock stock, long onTheWay, IEnumerable<ConsumableMove> moves, Sending sending)
        {
            var first = stock.Lots.Count == 0 ? today : stock.Lots.Min(l => l.Received);
            var days = new double[Math.Clamp(today.DayNumber - first.DayNumber, LeastDays, DailyUse.Days)];
            foreach (var move in moves)
            {
                var ago = today.DayNumber - DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(move.At, clock.LocalTimeZone).DateTime).DayNumber;
                if (ago >= 1 && ago <= days.Length)
                {
                    days[^ago] += move.Quantity;
                }
            }

            var goes = ItemDemand.Of(days, today.AddDays(-1));
            var packs = Reorder.Of(
                new()
                {
                    IsRoll = false,
                    Pack = 1,
                    Lots = [.. stock.Lots.Where(l => stock.LeftOf(l.Number) > 0 && !(l.BestBefore < today)).Select(l => (stock.LeftOf(l.Number), l.BestBefore))],
                    OnTheWay = onTheWay,
                    Promised = 0,
                    Reserve = stock.Consumable.ReorderAt + 1,
                    PerDay = goes.PerDay,
                    VariancePerDay = goes.VariancePerDay,
                    RateVariance = goes.RateVariance,
                    Week = goes.Week,
                },
                sending.Promise(clock.GetUtcNow()), today, Advice.FillRate, sending.Late).Packs;
            return new(stock, sending, onTheWay, packs, Why(stock, goes, onTheWay, today));
        }
    }

    private static string Why(ConsumableStock stock, ItemDemand goes, long onTheWay, DateOnly today)
    {
        var culture = CultureInfo.CurrentCulture;
        var month = goes.PerDay > 0 ? string.Create(culture, $"{goes.PerDay * DaysOfAMonth:0.#} go in a month; ") : "";
        var old = stock.Left - stock.InDate(today);
        return string.Create(culture, $"{month}{stock.Left} left{(old > 0 ? $", {old} of it out of date" : "")}{(onTheWay > 0 ? $", {onTheWay} on the way" : "")}; more is ordered at {stock.Consumable.ReorderAt}.");
    }
}

/// <param name="Pieces">To order now; 0 when there are enough.</param>
internal sealed record PiecesNeed(ConsumableStock Stock, Sending Sending, long OnTheWay, int Pieces, string Why)
{
    public PiecesBuyLine Shown => new(Stock.Consumable.Code, Stock.Consumable.Name, Pieces, Why);
}

/// <summary>A consumable that should be on the next order, and why.</summary>
public sealed record PiecesBuyLine(ConsumableCode Consumable, string Name, int Pieces, string Why);
