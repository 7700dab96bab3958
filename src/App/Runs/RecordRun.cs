using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Runs;

/// <summary>Writes down what came of a run: good prints, wasted prints and why. The ledger and the order follow.</summary>
/// <remarks>A sheet is waste only when no good print came from it: paper is booked as wasted for that part of the run alone.</remarks>
public sealed class RecordRun(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "printed", $"run {request.Run}");
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            var run = await db.Runs.FindAsync([request.Run], cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (run is null)
            {
                return new NoSuchRun(request.Run);
            }

            if (before.Value)
            {
                return new Done(run.Number, run.State is RunState.Done);
            }

            if (run.State is not RunState.Printing)
            {
                return new IsNotPrinting(run.Number);
            }

            var prints = await db.RunPrints.Where(p => p.Run == run.Number).OrderBy(p => p.Order).ThenBy(p => p.Line).ToListAsync(cancel);
            var all = prints.Sum(p => p.Copies);
            if (request.Good < 0 || request.Waste < 0 || request.Good + request.Waste != all)
            {
                return new DoesNotAddUp(request.Good, request.Waste, all);
            }

            await BookPaperAsync(db, run, request, all, wish, cancel);
            await BookPrintsAsync(db, prints, request.Good, cancel);
            if (request.Waste > 0)
            {
                db.RunWaste.Add(new()
                {
                    Run = run.Number,
                    Number = 1,
                    Cause = request.Cause,
                    Prints = request.Waste,
                    Paper = WastedPaper(run.Needs, request.Good, all),
                    At = clock.GetUtcNow(),
                });
            }

            (run.State, run.EndedAt) = (RunState.Done, clock.GetUtcNow());
            return new Done(run.Number, true);
        }, cancel);

    // Of paper that several prints share, the part that gave no good one; of a single sheet all or nothing.
    private static long WastedPaper(long needs, int good, int all) => good == 0 ? needs : needs * (all - good) / all;

    private static async Task BookPaperAsync(RoomDb db, Run run, Request request, int all, Wish wish, CancellationToken cancel)
    {
        var lot = (await db.Lots.FindAsync([run.Lot!.Value], cancel))!;
        var balance = await db.BalanceAsync(lot.Code, cancel);
        var wasted = WastedPaper(run.Needs, request.Good, all);
        var line = 0;
        foreach (var (quantity, to) in ((long, Account)[])[(run.Needs - wasted, Account.Good), (wasted, Account.Waste(request.Cause))])
        {
            if (quantity > 0)
            {
                var move = lot.Use(balance, quantity, run.Printer, to, wish).Value
                    ?? throw new InvalidOperationException($"Run {run.Number} drew less than it needs.");
                balance = await db.AddAsync(move with { Line = ++line }, balance, cancel);
            }
        }
    }

    private static async Task BookPrintsAsync(RoomDb db, List<RunPrint> prints, int good, CancellationToken cancel)
    {
        foreach (var print in prints)
        {
            print.Good = Math.Min(good, print.Copies);
            print.Wasted = print.Copies - print.Good;
            good -= print.Good;
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

    public sealed record Request(CommandId Command, PersonName By, int Run, int Good, int Waste, WasteCause Cause);

    public sealed record Done(int Run, bool Ended);

    public sealed record IsNotPrinting(int Run) : Refusal($"Run {Run} is not printing: begin it first, or it was recorded already.");

    public sealed record DoesNotAddUp(int Good, int Waste, int All) : Refusal($"{Good} good and {Waste} wasted do not make the {All} prints of the run. Nothing was recorded.");
}
