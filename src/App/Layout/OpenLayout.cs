using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Runs;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Layout;

/// <summary>A planned run whose layout is being changed: its prints, its paper, and how a new layout is taken.</summary>
internal sealed class OpenLayout
{
    private const double NoDifference = 0.01; // mm

    private readonly RoomDb db;
    private readonly Printer printer;
    private readonly LotBalance balance;

    private OpenLayout(RoomDb db, Run run, Format format, Printer printer, RunPaper paper, List<PrintLine> lines, LotBalance balance)
    {
        (this.db, this.printer, this.balance) = (db, printer, balance);
        (Run, Format, Paper, Lines, Layout) = (run, format, paper, lines, RunLayout.Read(run.Layout));
    }

    public Run Run { get; }

    public Format Format { get; }

    public RunPaper Paper { get; }

    /// <summary>The print lines on it; more may be added.</summary>
    public List<PrintLine> Lines { get; }

    public RunLayout Layout { get; }

    /// <summary>Sheets, or mm of roll, that the lot has on the shelf.</summary>
    public long OnShelf => balance.OnShelf;

    /// <summary>Of a roll what this run leaves, and whether that is too short to be loaded again.</summary>
    public (Length Left, bool TooShort) RollEnd(long needs)
    {
        var rest = Format.IsRoll ? Length.FromMillimetres(Math.Max(0, OnShelf - needs)) : Length.Zero;
        return (rest, Paper.Settings.IsTooShort(rest));
    }

    public static async Task<OpenLayout?> LoadAsync(RoomDb db, int number, CancellationToken cancel)
    {
        if (await db.Runs.FindAsync([number], cancel) is not { Lot: { } lot } run)
        {
            return null;
        }

        var format = await db.Formats.SingleAsync(f => f.Code == run.Format, cancel);
        var printer = await db.Printers.SingleAsync(p => p.Code == run.Printer, cancel);
        var paper = await RunPaper.OfAsync(db, format, printer, run.Paper, cancel);
        var lines = await (
            from print in db.RunPrints
            join line in db.PrintLines on new { print.Order, print.Line } equals new { line.Order, line.Line }
            where print.Run == number
            orderby print.Order, print.Line
            select line).ToListAsync(cancel);
        return new(db, run, format, printer, paper, lines, await db.BalanceAsync(lot, cancel));
    }

    /// <summary>Why it may not be changed now; none if it may.</summary>
    public async Task<Refusal?> ClosedAsync(int step, CancellationToken cancel) =>
        Run.State is not RunState.Planned ? new StartRun.HasBegun(Run.Number)
        : await db.RunSheets.AnyAsync(s => s.Run == Run.Number && s.SentAt != null, cancel) ? new FilesAreOut(Run.Number)
        : await LastStepAsync(db, Run.Number, cancel) != step ? new ChangedMeanwhile(Run.Number)
        : null;

    public static async Task<int> LastStepAsync(RoomDb db, int run, CancellationToken cancel) =>
        await db.LayoutSteps.Where(s => s.Run == run).MaxAsync(s => (int?)s.Number, cancel) ?? 0;

    /// <summary>Every print as it lies, sheet by sheet.</summary>
    public List<Lying> Prints() =>
        [.. Layout.Sheets.SelectMany((s, i) => s.Prints.Select((p, k) => new Lying(i, k, Lines.FindIndex(l => l.Order == p.Order && l.Line == p.Line), p)))];

    public HeldPiece Held(Lying lying)
    {
        var at = lying.Print.At;
        var turned = Math.Abs(at.Width - Lines[lying.Piece].FullWidth.Millimetres) > NoDifference;
        return new(lying.Piece, lying.Sheet, Um(at.X), Um(at.Y), turned);
    }

    /// <summary>Lays so many copies of each line around what is held.</summary>
    public Outcome<RunLayout> Lay(IReadOnlyList<int> copies, IReadOnlyList<HeldPiece> held, int seed, TimeProvider clock, double seconds = RunPaper.SearchSeconds)
    {
        var kept = Enumerable.Range(0, Lines.Count).Where(i => copies[i] > 0).ToList();
        var lines = kept.ConvertAll(i => Lines[i]);
        var stock = Paper.Stock;
        var hands = held.Select(h => AroundHeld.AtEdge(h with { Piece = kept.IndexOf(h.Piece) }, stock)).ToArray();
        var outcome = Paper.Lay(kept.ConvertAll(i => Paper.Of(Lines[i], copies[i])), hands, seed, clock, seconds);
        return outcome.Granted ? RunLayout.Of(outcome.Value, lines, hands) : outcome.Refusal;
    }

    /// <summary>Makes a layout the run's own: history, paper, minutes and prints follow, and files made before are made again.</summary>
    public async Task<Refusal?> TakeAsync(RunLayout layout, string what, PersonName by, DateTimeOffset at, CancellationToken cancel)
    {
        var needs = layout.Needs;
        if (needs > OnShelf)
        {
            return new NotEnough(Run.Lot!.Value, Account.Shelf, needs, OnShelf);
        }

        var open = await RunPaper.OpenCopiesAsync(db, Run.Number, cancel);
        var prints = await db.RunPrints.Where(p => p.Run == Run.Number).ToListAsync(cancel);
        var copies = layout.Sheets.SelectMany(s => s.Prints).GroupBy(p => (p.Order, p.Line)).ToDictionary(g => g.Key, g => g.Count());
        foreach (var ((order, line), n) in copies)
        {
            if (await db.PrintLines.FindAsync([order, line], cancel) is not { } of || n > of.ToPrint - open.GetValueOrDefault((order, line)))
            {
                return new NotWaiting(order, line);
            }

            if (prints.Find(p => p.Order == order && p.Line == line) is { } print)
            {
                print.Copies = n;
            }
            else
            {
                db.RunPrints.Add(new() { Run = Run.Number, Order = order, Line = line, Copies = n });
            }
        }

        db.RunPrints.RemoveRange(prints.Where(p => !copies.ContainsKey((p.Order, p.Line))));
        var last = await LastStepAsync(db, Run.Number, cancel);
        if (last == 0)
        {
            db.LayoutSteps.Add(new() { Run = Run.Number, Number = 0, At = Run.PlannedAt, By = by, What = "As it was laid at first", Layout = Run.Layout });
        }

        db.LayoutSteps.Add(new() { Run = Run.Number, Number = last + 1, At = at, By = by, What = what, Layout = layout.ToJson() });
        (Run.Layout, Run.Needs, Run.PlannedMinutes) = (layout.ToJson(), needs, layout.Minutes(printer));
        db.RunSheets.RemoveRange(await db.RunSheets.Where(s => s.Run == Run.Number).ToListAsync(cancel));
        return null;
    }

    public static long Um(double mm) => Length.NearestToMillimetres(mm).Micrometres;

    /// <summary>One print where it lies: on which sheet and which of it, from 0; of which line.</summary>
    public sealed record Lying(int Sheet, int Number, int Piece, RunLayout.Print Print);
}

public sealed record FilesAreOut(int Run)
    : Refusal($"The files of run {Run} were handed to its printer. Its layout is not changed any more.");

public sealed record ChangedMeanwhile(int Run)
    : Refusal($"The layout of run {Run} was changed meanwhile. Look at it as it is now, and do it again.");

public sealed record NotWaiting(int Order, int Line)
    : Refusal($"Print {Line} of order {Order} is not waiting for so many copies any more: another run has it, or it is made. Nothing was changed.");
