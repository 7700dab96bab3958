using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Runs;

/// <summary>Writes down what came of a run, whole or stopped: which prints are lost and why. The ledger and the order follow.</summary>
/// <remarks>A sheet is waste only when no good print came from it. Paper that a stopped run did not use goes back to the shelf.</remarks>
public sealed class RecordRun(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "printed", $"run {request.Run}");
            var before = await db.GrantedBeforeAsync(wish, request.Content, cancel);
            var run = await db.Runs.FindAsync([request.Run], cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (run is null)
            {
                return new NoSuchRun(request.Run);
            }

            var prints = await db.RunPrints.Where(p => p.Run == run.Number).ToListAsync(cancel);
            if (before.Value)
            {
                return new Done(run.Number, prints.Sum(p => p.Good), prints.Sum(p => p.Wasted), run.State is RunState.Stopped);
            }

            if (run.State is not RunState.Printing)
            {
                return new IsNotPrinting(run.Number);
            }

            var told = RunResult.Of(RunLayout.Read(run.Layout), run.Needs, request);
            if (!told.Granted)
            {
                return told.Refusal;
            }

            var result = told.Value;
            await BookPaperAsync(db, run, request.Printed ?? run.Needs, result.Paper(), wish, cancel);
            await BookPrintsAsync(db, prints, result, cancel);
            BookWaste(db, run, result);
            var stopped = request.Printed < run.Needs;
            (run.State, run.EndedAt) = (stopped ? RunState.Stopped : RunState.Done, clock.GetUtcNow());
            return new Done(run.Number, result.Good, result.Wasted, stopped);
        }, cancel);

    private static async Task BookPaperAsync(RoomDb db, Run run, long used, PaperBooking paper, Wish wish, CancellationToken cancel)
    {
        var lot = (await db.Lots.FindAsync([run.Lot!.Value], cancel))!;
        var balance = await db.BalanceAsync(lot.Code, cancel);
        var line = 0;
        foreach (var (quantity, to) in ((long, Account)[])
            [(paper.Good, Account.Good), .. paper.Wasted.Select(w => (w.Quantity, Account.Waste(w.Cause))), (run.Needs - used, Account.Shelf)])
        {
            if (quantity > 0)
            {
                var move = lot.Use(balance, quantity, run.Printer, to, wish).Value
                    ?? throw new InvalidOperationException($"Run {run.Number} drew less than it needs.");
                balance = await db.AddAsync(move with { Line = ++line }, balance, cancel);
            }
        }
    }

    private static async Task BookPrintsAsync(RoomDb db, List<RunPrint> prints, RunResult result, CancellationToken cancel)
    {
        foreach (var print in prints)
        {
            (print.Good, print.Wasted) = result.Of(print.Order, print.Line);
            var line = (await db.PrintLines.FindAsync([print.Order, print.Line], cancel))!;
            line.Good += print.Good;
            line.Wasted += print.Wasted;
        }

        foreach (var number in prints.Select(p => p.Order).Distinct())
        {
            var lines = await db.PrintLines.Where(l => l.Order == number).ToListAsync(cancel);
            if (lines.All(l => l.ToPrint == 0))
            {
                (await db.Orders.FindAsync([number], cancel))!.State = OrderState.Done;
            }
        }
    }

    private void BookWaste(RoomDb db, Run run, RunResult result)
    {
        var paper = result.Paper().Wasted.ToDictionary(w => w.Cause, w => w.Quantity);
        var number = 0;
        foreach (var (cause, prints) in result.ByCause())
        {
            db.RunWaste.Add(new()
            {
                Run = run.Number,
                Number = ++number,
                Cause = cause,
                Prints = prints,
                Paper = paper.GetValueOrDefault(cause),
                At = clock.GetUtcNow(),
            });
        }
    }

    /// <param name="Command">The wish's own id.</param>
    /// <param name="By">Who writes it down.</param>
    /// <param name="Run">The run.</param>
    /// <param name="Wasted">What was lost, each with its cause; all else is good.</param>
    /// <param name="Printed">Where a stopped run stopped: sheets, or mm of roll; none when all of it was printed.</param>
    /// <param name="StoppedBy">Why the print that was cut off by the stop is lost; of a roll only.</param>
    public sealed record Request(
        CommandId Command, PersonName By, int Run, IReadOnlyList<Waste> Wasted, long? Printed = null, WasteCause StoppedBy = WasteCause.Other)
    {
        internal string Content => $"{this} {string.Join("; ", Wasted)}";
    }

    /// <param name="Copies">How many prints.</param>
    /// <param name="Cause">Why.</param>
    /// <param name="Sheet">On which sheet, from 1; none on a roll or a single sheet.</param>
    /// <param name="Line">Of which print line; none for any.</param>
    public sealed record Waste(int Copies, WasteCause Cause, int? Sheet = null, (int Order, int Line)? Line = null);

    public sealed record Done(int Run, int Good, int Wasted, bool Stopped);

    public sealed record IsNotPrinting(int Run) : Refusal($"Run {Run} is not printing: begin it first, or it was recorded already.");

    public sealed record NotSoMany(int Copies, int Has, int? Sheet)
        : Refusal($"{Copies} cannot be wasted: {(Sheet is null ? "the run" : $"sheet {Sheet}")} has {Has} such prints that are not accounted for. Nothing was recorded.");

    public sealed record WhichSheet(int Sheets)
        : Refusal($"Say on which of the {Sheets} sheets: a sheet is waste only when no good print came from it. Nothing was recorded.");

    public sealed record NotPrintedSoFar(long Printed, long Needs)
        : Refusal($"{Printed} cannot be printed of {Needs}. Nothing was recorded.");
}
