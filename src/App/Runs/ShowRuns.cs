using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Runs;

/// <summary>The runs, and the card of one.</summary>
public sealed class ShowRuns(RoomStore room)
{
    private const int Shown = 100;

    public async Task<IReadOnlyList<Line>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await (
            from run in db.Runs.AsNoTracking()
            join paper in db.Papers on run.Paper equals paper.Code
            join printer in db.Printers on run.Printer equals printer.Code
            orderby run.Number descending
            select new Line(run, paper.Name, printer.Name, db.RunPrints.Where(p => p.Run == run.Number).Sum(p => p.Copies))).Take(Shown).ToListAsync(cancel);
    }

    public async Task<RunCard?> CardAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await RunCard.LoadAsync(db, number, cancel);
    }

    public sealed record Line(Run Run, string Paper, string Printer, int Prints);
}
