using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Runs;

/// <summary>All that goes with a run: what, how, in what order, what to look out for.</summary>
/// <param name="Alike">Other planned runs that the same change of the printing condition stops.</param>
public sealed record RunCard(
    Run Run, Paper Paper, ClassRule Rule, Format Format, Printer Printer, Loaded? Loaded, PrintingCondition Condition, Profile Profile,
    Lot Lot, IReadOnlyList<RunCard.Print> Prints, RunLayout Layout, IReadOnlyList<Order> Orders, IReadOnlyList<Decision> Decided, IReadOnlyList<RunStop> Halts,
    IReadOnlyList<RunCard.Strip> Strips, IReadOnlyList<int> Alike)
{
    /// <summary>Another black is in the printer than this run prints with, and it has not begun.</summary>
    public bool ChangeBlack => Run.State is RunState.Planned && Loaded is { } on && on.Black != Run.Black;

    /// <summary>Profile, black, feed, fingerprint or files are not right, and nobody has let it go on.</summary>
    public bool WaitsForADecision => Halts.Count > 0;

    public int AllPrints => Prints.Sum(p => p.Run.Copies);

    public IReadOnlyList<CardStep> Steps => CardSteps.Of(new(
        Paper, Rule, Format, Printer, Condition, Lot.Code, Run.Needs, ChangeBlack, Layout.Cuts));

    public IReadOnlyList<Caution> Cautions => HandlingAdvice.Cautions(Rule, Format.IsRoll, Layout.Cuts > 0);

    /// <summary>Why its orders may not be begun without a decision; empty when they may.</summary>
    public IReadOnlyList<Goodsheet.Room.Refusal> Stops => [.. Orders.Select(OrderRules.Stop).OfType<Goodsheet.Room.Refusal>()];

    /// <summary>Loads it in a step or for reading; none when there is no such run.</summary>
    internal static async Task<RunCard?> LoadAsync(RoomDb db, int number, CancellationToken cancel)
    {
        var run = await db.Runs.AsNoTracking().SingleOrDefaultAsync(r => r.Number == number, cancel);
        if (run is null)
        {
            return null;
        }

        var about = RunStops.About(number);
        var halts = await RunStops.OpenAsync(db, run, cancel);
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == run.Paper, cancel);
        var prints = await (
            from print in db.RunPrints.AsNoTracking()
            join line in db.PrintLines on new { print.Order, print.Line } equals new { line.Order, line.Line }
            where print.Run == number
            orderby print.Order, print.Line
            select new Print(print, line)).ToListAsync(cancel);
        return new(
            run,
            paper,
            await db.ClassRules.AsNoTracking().SingleAsync(r => r.Class == paper.Class, cancel),
            await db.Formats.AsNoTracking().SingleAsync(f => f.Code == run.Format, cancel),
            await db.Printers.AsNoTracking().SingleAsync(p => p.Code == run.Printer, cancel),
            await db.Loaded.AsNoTracking().SingleOrDefaultAsync(l => l.Printer == run.Printer, cancel),
            await db.Conditions.AsNoTracking().SingleAsync(c => c.Code == run.Condition, cancel),
            await db.Profiles.AsNoTracking().SingleAsync(p => p.Number == run.Profile, cancel),
            await db.Lots.AsNoTracking().SingleAsync(l => l.Code == run.Lot, cancel),
            prints,
            RunLayout.Read(run.Layout),
            await db.Orders.AsNoTracking().Where(o => db.RunPrints.Any(p => p.Run == number && p.Order == o.Number)).OrderBy(o => o.Promised).ToListAsync(cancel),
            await db.Decisions.AsNoTracking().Where(d => d.About == about).OrderBy(d => d.At).ToListAsync(cancel),
            halts,
            await StripsAsync(db, prints.ConvertAll(p => p.Line), cancel),
            [.. (await RunStops.AlikeAsync(db, run, halts, cancel)).Select(a => a.Run)]);
    }

    private static async Task<IReadOnlyList<Strip>> StripsAsync(RoomDb db, IReadOnlyList<PrintLine> lines, CancellationToken cancel)
    {
        var wanted = lines.Where(l => l.StripFirst).ToList();
        var last = await TestStripsOf.LastAsync(db, wanted, cancel);
        return [.. wanted.Select(l => new Strip(AwaitedStrip.Of(l, last.GetValueOrDefault((l.Order, l.Line))), last.GetValueOrDefault((l.Order, l.Line))))];
    }

    /// <summary>What a stopped run leaves to be laid again, order by order, and whether its promise still holds.</summary>
    public IReadOnlyList<Rest> LaidAgain(DateTimeOffset now) =>
    [
        .. from order in Orders
           let prints = Prints.Where(p => p.Run.Order == order.Number).Sum(p => p.Run.Copies - p.Run.Good)
           where prints > 0
           let ready = now.AddMinutes(Run.PlannedMinutes * prints / AllPrints).AddHours(Paper.DryingHours)
           select new Rest(order, prints, ready),
    ];

    public sealed record Print(RunPrint Run, PrintLine Line);

    /// <summary>The test strip that a print of the run wants first.</summary>
    /// <param name="Of">Which print, and what it still waits for.</param>
    /// <param name="Last">The last one made; none while none is.</param>
    public sealed record Strip(AwaitedStrip Of, TestStrip? Last)
    {
        public string Says => Of.Wait switch
        {
            not StripWait.Nothing => Of.Says,
            _ when Last is { Says: StripSays.GoOn } last => $"{last.SaidBy} looked at it: go on{(last.Why.Length > 0 ? $" ({last.Why})" : "")}",
            _ => "not wanted any more",
        };
    }

    /// <param name="Order">Whose prints.</param>
    /// <param name="Prints">How many are to be laid again.</param>
    /// <param name="Ready">When they are printed and dry at the earliest, were they begun now.</param>
    public sealed record Rest(Order Order, int Prints, DateTimeOffset Ready)
    {
        public bool PromiseMoves => Ready > Order.Promised;
    }
}
