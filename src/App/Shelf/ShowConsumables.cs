using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Inks, tanks, blades, coats and gloves: what is left of each.</summary>
public sealed class ShowConsumables(RoomStore room, TimeProvider clock)
{
    private const int ShownMoves = 100;

    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return new(
            clock.Today(),
            [.. (await db.ConsumableStocksAsync(cancel)).OrderBy(s => s.Consumable.Kind).ThenBy(s => s.Consumable.Printer?.Value, StringComparer.Ordinal).ThenBy(s => s.Consumable.Name, StringComparer.CurrentCulture)],
            await db.Printers.AsNoTracking().Where(p => !p.Gone).OrderBy(p => p.Name).ToListAsync(cancel),
            await db.Suppliers.AsNoTracking().OrderBy(s => s.Name).ToListAsync(cancel));
    }

    public async Task<One?> OneAsync(ConsumableCode code, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.ConsumableStockAsync(code, cancel) is not { } stock ? null : new(
            clock.Today(), stock,
            await db.ConsumableMoves.AsNoTracking().Where(m => m.Consumable == code).OrderByDescending(m => m.Number).Take(ShownMoves).ToListAsync(cancel),
            await db.Suppliers.AsNoTracking().OrderBy(s => s.Name).ToListAsync(cancel));
    }

    public sealed record Page(DateOnly Today, IReadOnlyList<ConsumableStock> All, IReadOnlyList<Printer> Printers, IReadOnlyList<Supplier> Suppliers);

    public sealed record One(DateOnly Today, ConsumableStock Stock, IReadOnlyList<ConsumableMove> Moves, IReadOnlyList<Supplier> Suppliers);
}

/// <summary>The consumables as they stand.</summary>
internal static class ConsumableStocks
{
    public static async Task<IReadOnlyList<ConsumableStock>> ConsumableStocksAsync(this RoomDb db, CancellationToken cancel)
    {
        var lots = (await db.ConsumableLots.AsNoTracking().ToListAsync(cancel)).ToLookup(l => l.Consumable);
        var moves = (await db.ConsumableMoves.AsNoTracking().ToListAsync(cancel)).ToLookup(m => m.Consumable);
        return [.. (await db.Consumables.AsNoTracking().ToListAsync(cancel)).Select(c => ConsumableStock.Of(c, [.. lots[c.Code]], moves[c.Code]))];
    }

    public static async Task<ConsumableStock?> ConsumableStockAsync(this RoomDb db, ConsumableCode code, CancellationToken cancel) =>
        await db.Consumables.AsNoTracking().SingleOrDefaultAsync(c => c.Code == code, cancel) is { } consumable
            ? ConsumableStock.Of(
                consumable,
                await db.ConsumableLots.AsNoTracking().Where(l => l.Consumable == code).OrderBy(l => l.Number).ToListAsync(cancel),
                await db.ConsumableMoves.AsNoTracking().Where(m => m.Consumable == code).ToListAsync(cancel))
            : null;
}
