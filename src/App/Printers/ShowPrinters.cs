using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Printers;

/// <summary>The printers and what is on each of them now.</summary>
public sealed class ShowPrinters(RoomStore room)
{
    public async Task<IReadOnlyList<Line>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var printers = await db.Printers.AsNoTracking().Where(p => !p.Gone).OrderBy(p => p.Name).ToListAsync(cancel);
        var loaded = await db.Loaded.AsNoTracking().ToDictionaryAsync(l => l.Printer, cancel);
        var lines = new List<Line>();
        foreach (var printer in printers)
        {
            var on = loaded[printer.Code];
            var lot = on.Lot is { } code ? await db.Lots.AsNoTracking().SingleAsync(l => l.Code == code, cancel) : null;
            var left = lot is null ? 0 : (await db.BalanceAsync(lot.Code, cancel)).Of(Account.At(printer.Code));
            lines.Add(new(printer, on, lot, left));
        }

        return lines;
    }

    /// <summary>What each printer is called, those with it that are gone: a code is never shown where a name belongs.</summary>
    public async Task<IReadOnlyDictionary<PrinterCode, string>> NamesAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.Printers.AsNoTracking().ToDictionaryAsync(p => p.Code, p => p.Name, cancel);
    }

    /// <param name="Printer">The printer.</param>
    /// <param name="On">What is on it.</param>
    /// <param name="Lot">The lot that is on it, if any.</param>
    /// <param name="Left">What is left of that lot on the printer, in sheets or mm.</param>
    public sealed record Line(Printer Printer, Loaded On, Lot? Lot, long Left);
}
