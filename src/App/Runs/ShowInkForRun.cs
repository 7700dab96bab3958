using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Runs;

/// <summary>Whether there is ink for a run: in its printer as reckoned, and on the shelf.</summary>
public sealed class ShowInkForRun(RoomStore room, TimeProvider clock)
{
    private const double PerSquareMetre = 1e12; // square micrometres

    /// <summary>None when the room keeps no inks of that printer, or has no figure of what a square metre takes.</summary>
    public async Task<InkForRun?> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var today = clock.Today();
        var rates = await Money.OrderCost.RatesAsync(db, today, cancel);
        var run = await db.Runs.AsNoTracking().SingleOrDefaultAsync(r => r.Number == number, cancel);
        var inks = (await db.ConsumableStocksAsync(cancel)).Where(s => s.Consumable.Kind is ConsumableKind.Ink && s.Consumable.Printer == run?.Printer).ToList();
        if (run is null || inks.Count == 0 || rates is not { MlPerSquareMetre: > 0 })
        {
            return null;
        }

        var perSquareMetre = (double)(rates.MlPerSquareMetre * (1 + rates.PurgeShare));
        var since = inks.Select(i => i.InPrinter?.Since).OfType<DateTimeOffset>().DefaultIfEmpty(clock.GetUtcNow()).Min();
        var printed = await (
            from print in db.RunPrints.AsNoTracking()
            join line in db.PrintLines on new { print.Order, print.Line } equals new { line.Order, line.Line }
            join other in db.Runs on print.Run equals other.Number
            where other.Printer == run.Printer && (other.Number == number || other.PlannedAt >= since)
            select new { other.Number, other.State, other.PlannedAt, print.Copies, line.Width, line.Height }).ToListAsync(cancel);
        double Ml(int copies, Room.Units.Length width, Room.Units.Length height) => copies * (double)width.Micrometres * height.Micrometres / PerSquareMetre * perSquareMetre;
        return InkForRun.Of(
            printed.Where(p => p.Number == number).Sum(p => Ml(p.Copies, p.Width, p.Height)), inks,
            from => printed.Where(p => p.Number != number && p.PlannedAt >= from && p.State is not RunState.Planned).Sum(p => Ml(p.Copies, p.Width, p.Height)), today);
    }
}
