using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;
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

    public async Task<Card?> CardAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var run = await db.Runs.AsNoTracking().SingleOrDefaultAsync(r => r.Number == number, cancel);
        if (run is null)
        {
            return null;
        }

        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == run.Paper, cancel);
        return new(
            run,
            paper,
            await db.ClassRules.AsNoTracking().SingleAsync(r => r.Class == paper.Class, cancel),
            await db.Formats.AsNoTracking().SingleAsync(f => f.Code == run.Format, cancel),
            await db.Printers.AsNoTracking().SingleAsync(p => p.Code == run.Printer, cancel),
            await db.Loaded.AsNoTracking().SingleOrDefaultAsync(l => l.Printer == run.Printer, cancel),
            await db.Conditions.AsNoTracking().SingleAsync(c => c.Code == run.Condition, cancel),
            await db.Profiles.AsNoTracking().SingleAsync(p => p.Number == run.Profile, cancel),
            await (
                from print in db.RunPrints.AsNoTracking()
                join line in db.PrintLines on new { print.Order, print.Line } equals new { line.Order, line.Line }
                where print.Run == number
                select new Print(print, line)).ToListAsync(cancel),
            RunLayout.Read(run.Layout));
    }

    public sealed record Line(Run Run, string Paper, string Printer, int Prints);

    public sealed record Print(RunPrint Run, PrintLine Line);

    public sealed record Card(
        Run Run, Paper Paper, ClassRule Rule, Format Format, Printer Printer, Loaded? Loaded, PrintingCondition Condition, Profile Profile,
        IReadOnlyList<Print> Prints, RunLayout Layout);
}
