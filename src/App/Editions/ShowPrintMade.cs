using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Editions;

/// <summary>What a certificate says of an order's print, as it was made: nobody types it a second time.</summary>
public sealed class ShowPrintMade(RoomStore room, TimeProvider clock)
{
    /// <returns>None when there is no such print, or no good one of it.</returns>
    public async Task<Made?> RunAsync(int order, int line, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        if (await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == order && l.Line == line, cancel) is not { Good: > 0 } print)
        {
            return null;
        }

        var runs = await (
            from made in db.RunPrints.AsNoTracking()
            join r in db.Runs on made.Run equals r.Number
            join printer in db.Printers on r.Printer equals printer.Code
            where made.Order == order && made.Line == line && made.Good > 0
            orderby r.Number descending
            select new { r.Number, r.EndedAt, printer.Inks, r.Black }).ToListAsync(cancel);
        var last = runs.FirstOrDefault();
        var numbers = runs.Select(r => (int?)r.Number).ToList();
        return new(
            order, line, print.Title, print.Width, print.Height, print.FinishedWidth, print.FinishedHeight, print.Paper,
            last is null ? "" : $"{last.Inks}, {last.Black.ToString().ToLowerInvariant()} black",
            last?.EndedAt is { } at ? DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(at, clock.LocalTimeZone).DateTime) : null,
            last?.Number, print.Good,
            await db.NumberedPrints.CountAsync(p => numbers.Contains(p.Run) && p.DestroyedAt == null && p.Paper == print.Paper && p.ImageWidth == print.Width && p.ImageHeight == print.Height, cancel),
            await db.Editions.AsNoTracking().Where(e => e.Title == print.Title).Select(e => (int?)e.Number).FirstOrDefaultAsync(cancel));
    }

    /// <param name="SheetWidth">As it leaves the knife.</param>
    /// <param name="Ink">"Pigment, matte black"; empty when its run is not known.</param>
    /// <param name="On">The day its last run ended, by the room's clock.</param>
    /// <param name="Run">The last run that made good ones.</param>
    /// <param name="Good">How many good prints there are.</param>
    /// <param name="Numbered">How many of its runs' prints of this size have a number that stands.</param>
    /// <param name="Edition">The edition of this title, if one is open.</param>
    public sealed record Made(
        int Order, int Line, string Title, Length ImageWidth, Length ImageHeight, Length SheetWidth, Length SheetHeight, PaperCode Paper, string Ink, DateOnly? On, int? Run, int Good, int Numbered, int? Edition);
}
