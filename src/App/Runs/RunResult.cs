using Goodsheet.Room;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Runs;

/// <summary>What came of each print of a run, told from what the keeper wrote down.</summary>
internal sealed class RunResult
{
    private const double PerMm = 1_000;

    private readonly bool isRoll;
    private readonly long used;
    private readonly List<Fate> fates;

    private RunResult(bool isRoll, long used, List<Fate> fates) => (this.isRoll, this.used, this.fates) = (isRoll, used, fates);

    public int Good => fates.Count(f => f.Wasted is null);

    public int Wasted => fates.Count(f => f.Wasted is not null);

    /// <param name="layout">Where the prints lie.</param>
    /// <param name="needs">Sheets, or mm of roll, that were drawn for it.</param>
    /// <param name="request">What was written down.</param>
    public static Outcome<RunResult> Of(RunLayout layout, long needs, RecordRun.Request request)
    {
        var used = request.Printed ?? needs;
        if (used < 0 || used > needs)
        {
            return new RecordRun.NotPrintedSoFar(used, needs);
        }

        var fates = layout.Sheets.SelectMany((s, i) => s.Prints.Select(p => new Fate(i + 1, p)))
            .Where(f => layout.IsRoll ? f.Print.At.Y < used : f.Sheet <= used).ToList();
        foreach (var cutOff in fates.Where(f => layout.IsRoll && f.To > used * (long)PerMm))
        {
            (cutOff.To, cutOff.Wasted) = (used * (long)PerMm, request.StoppedBy);
        }

        foreach (var waste in request.Wasted.Where(w => w.Copies != 0))
        {
            if (waste.Sheet is null && layout.Sheets.Count > 1)
            {
                return new RecordRun.WhichSheet(layout.Sheets.Count);
            }

            var left = fates.Where(f => f.Wasted is null && (waste.Sheet ?? f.Sheet) == f.Sheet
                && (waste.Line is not { } of || of == (f.Print.Order, f.Print.Line))).ToArray();
            if (waste.Copies < 0 || waste.Copies > left.Length)
            {
                return new RecordRun.NotSoMany(waste.Copies, left.Length, waste.Sheet);
            }

            foreach (var fate in left.Take(waste.Copies))
            {
                fate.Wasted = waste.Cause;
            }
        }

        return new RunResult(layout.IsRoll, used, fates);
    }

    public PaperBooking Paper() => PaperBooking.Of(isRoll, used, [.. fates.Select(f => new PrintedPiece(f.Sheet, f.From, f.To, f.Wasted))]);

    public (int Good, int Wasted) Of(int order, int line)
    {
        var prints = fates.Where(f => f.Print.Order == order && f.Print.Line == line).ToArray();
        return (prints.Count(f => f.Wasted is null), prints.Count(f => f.Wasted is not null));
    }

    public IEnumerable<(WasteCause Cause, int Prints)> ByCause() =>
        fates.Where(f => f.Wasted is not null).GroupBy(f => f.Wasted!.Value).OrderBy(g => g.Key).Select(g => (g.Key, g.Count()));

    private sealed class Fate(int sheet, RunLayout.Print print)
    {
        public int Sheet => sheet;

        public RunLayout.Print Print => print;

        public long From { get; } = (long)Math.Round(print.At.Y * PerMm);

        public long To { get; set; } = (long)Math.Round((print.At.Y + print.At.Height) * PerMm);

        public WasteCause? Wasted { get; set; }
    }
}
