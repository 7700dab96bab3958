using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Runs;

/// <summary>The runs, and the card of one.</summary>
public sealed class ShowRuns(RoomStore room)
{
    private const int Shown = 20;

    /// <param name="before">Runs that are over, with lower numbers than this; none for the newest, with those that are not over.</param>
    public async Task<Page> RunAsync(int? before = null, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var lines =
            from run in db.Runs.AsNoTracking()
            join paper in db.Papers on run.Paper equals paper.Code
            join printer in db.Printers on run.Printer equals printer.Code
            select new { Run = run, Paper = paper.Name, Printer = printer.Name, Prints = db.RunPrints.Where(p => p.Run == run.Number).Sum(p => p.Copies) };
        var open = before is null ? await lines.Where(l => l.Run.State == RunState.Planned || l.Run.State == RunState.Printing).ToListAsync(cancel) : [];
        var over = await lines.Where(l => l.Run.State != RunState.Planned && l.Run.State != RunState.Printing && (before == null || l.Run.Number < before))
            .OrderByDescending(l => l.Run.Number).Take(Shown + 1).ToListAsync(cancel);
        return new(
            [.. open.OrderByDescending(l => l.Run.State is RunState.Printing).ThenBy(l => l.Run.PlannedAt).ThenBy(l => l.Run.Number).Select(l => new Line(l.Run, l.Paper, l.Printer, l.Prints))],
            [.. over.Take(Shown).Select(l => new Line(l.Run, l.Paper, l.Printer, l.Prints))], over.Count > Shown ? over[Shown - 1].Run.Number : null);
    }

    public async Task<RunCard?> CardAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await RunCard.LoadAsync(db, number, cancel);
    }

    /// <param name="Open">Printing, then planned, in the plan's order.</param>
    /// <param name="Over">Done, stopped and cancelled, newest first.</param>
    /// <param name="Older">There are more, below this number.</param>
    public sealed record Page(IReadOnlyList<Line> Open, IReadOnlyList<Line> Over, int? Older);

    public sealed record Line(Run Run, string Paper, string Printer, int Prints);
}
