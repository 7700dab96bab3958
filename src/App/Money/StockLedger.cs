using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Money;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Money;

/// <summary>The ledger with what each lot cost: by the order it came with, else by its supplier's price of that day, else by the room's price of a square metre.</summary>
internal static class StockLedger
{
    /// <summary>All moves, the oldest first.</summary>
    public static async Task<IReadOnlyList<CostedMove>> CostedMovesAsync(this RoomDb db, TimeProvider clock, CancellationToken cancel)
    {
        var lots = await db.Lots.AsNoTracking().ToDictionaryAsync(l => l.Code, cancel);
        var moves = await db.Moves.AsNoTracking().OrderBy(m => m.At).ThenBy(m => m.Lot).ThenBy(m => m.Number)
            .Select(m => new { m.Lot, m.Command, m.From, m.To, m.Quantity, m.At, m.Reference }).ToListAsync(cancel);
        var formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel);
        var prices = (await db.Prices.AsNoTracking().ToListAsync(cancel)).ToLookup(p => new ItemCode(p.Paper, p.Format));
        var plain = (await db.PaperPrices.AsNoTracking().ToListAsync(cancel)).ToLookup(p => p.Paper);
        var ordered = (await db.PurchaseLines.AsNoTracking().Where(l => l.Price != null).ToListAsync(cancel)).ToLookup(l => (l.Order, new ItemCode(l.Paper, l.Format)));
        var suppliers = await db.Items.AsNoTracking().ToDictionaryAsync(i => new ItemCode(i.Paper, i.Format), i => i.Supplier, cancel);
        var cost = new Dictionary<LotCode, decimal?>();
        foreach (var move in moves.Where(m => m.From == Account.Supplier))
        {
            cost.TryAdd(move.Lot, Bought(lots[move.Lot], move.Reference));
        }

        // What a cut piece costs is what was cut up for it: in the order of the ledger a parent comes before its pieces.
        var taken = moves.Where(m => m.To == Account.Trimmed).ToLookup(m => m.Command);
        foreach (var move in moves.Where(m => m.From == Account.Trimmed))
        {
            cost.TryAdd(move.Lot, taken[move.Command].FirstOrDefault() is { } from && cost.GetValueOrDefault(from.Lot) is { } each ? each * from.Quantity / move.Quantity : null);
        }

        return [.. moves.Select(m => new CostedMove(
            lots[m.Lot].Item, m.Lot, DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(m.At, clock.LocalTimeZone).DateTime), m.From, m.To, m.Quantity, cost.GetValueOrDefault(m.Lot)))];

        decimal? Bought(Lot lot, string? reference)
        {
            if (OrderIn(reference) is { } order && ordered[(order, lot.Item)].FirstOrDefault() is { Price: { } paid } line)
            {
                return paid / line.PackSize;
            }

            var supplier = lot.Supplier ?? suppliers.GetValueOrDefault(lot.Item);
            if (prices[lot.Item].Where(p => p.Supplier == supplier && p.From <= lot.Received).OrderByDescending(p => p.From).ThenBy(p => p.FromPacks).FirstOrDefault() is { } listed)
            {
                return listed.Price / listed.PackSize;
            }

            return plain[lot.Paper].OrderByDescending(p => p.From <= lot.Received).ThenByDescending(p => p.From).FirstOrDefault()?.PerSquareMetre * formats[lot.Format].AreaOfOne;
        }
    }

    // "order 12, note C 5521", as goods-in writes it.
    private static int? OrderIn(string? reference) =>
        reference?.Split(',')[0] is { } first && first.StartsWith("order ", StringComparison.Ordinal)
        && int.TryParse(first["order ".Length..], System.Globalization.CultureInfo.InvariantCulture, out var number) ? number : null;
}
