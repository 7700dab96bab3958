using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Runs;

/// <summary>Begins a run: its paper goes from the shelf to the printer.</summary>
public sealed class StartRun(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "drawn", $"run {request.Run}");
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
                return new Done(run.Number);
            }

            if (run.State is not RunState.Planned)
            {
                return new HasBegun(run.Number);
            }

            if (await DecideAsync(db, run.Number, request, cancel) is { } stopped)
            {
                return stopped;
            }

            if (await RunStops.OpenAsync(db, run, cancel) is { Count: > 0 } stops)
            {
                return new IsStopped(run.Number, stops);
            }

            var loaded = await db.Loaded.FindAsync([run.Printer], cancel);
            if (loaded is not null && loaded.Black != run.Black && !request.BlackIsIn)
            {
                return new AnotherBlackIsIn(run.Number, (await db.Printers.FindAsync([run.Printer], cancel))!.Name, loaded.Black, run.Black);
            }

            var lot = await db.Lots.FindAsync([run.Lot!.Value], cancel);
            var balance = await db.BalanceAsync(lot!.Code, cancel);
            var drawn = lot.Draw(balance, run.Needs, run.Printer, wish, clock.Today());
            if (!drawn.Granted)
            {
                return drawn.Refusal;
            }

            await db.AddAsync(drawn.Value, balance, cancel);
            lot.Opened ??= clock.Today();
            (run.State, run.BeganAt) = (RunState.Printing, clock.GetUtcNow());
            if (loaded is not null)
            {
                (loaded.Lot, loaded.Black, loaded.Since, loaded.By) = (lot.Code, run.Black, clock.GetUtcNow(), request.By);
            }

            return new Done(run.Number);
        }, cancel);

    // An order that is held or not approved is begun only by a decision that carries a person's name and reason.
    private async Task<Refusal?> DecideAsync(RoomDb db, int run, Request request, CancellationToken cancel)
    {
        var stops = await OrderStops.OfAsync(db, run, cancel);
        if (stops.Count == 0)
        {
            return null;
        }

        var why = request.Why.Trim();
        if (why.Length is 0 or > LongestWhy || request.By.IsTheRooms)
        {
            return new OrderStopsIt(run, string.Join(" ", stops.Select(s => s.Stop.Message)), request.By.IsTheRooms);
        }

        foreach (var (order, stop) in stops)
        {
            db.Decisions.Add(OrderStops.Decision(run, order, $"{why} ({stop.Message})", clock.GetUtcNow(), request.By));
            await OrderLog.AddAsync(db, order, FactKind.Decided, $"Run {run} is begun though: {stop.Message} {why}", clock.GetUtcNow(), request.By, cancel);
        }

        return null;
    }

    private const int LongestWhy = 400;

    /// <param name="Why">Why it is begun though an order is on hold or not approved; empty when none is.</param>
    /// <param name="BlackIsIn">The keeper says that the black this run prints with is in the printer now.</param>
    public sealed record Request(CommandId Command, PersonName By, int Run, string Why = "", bool BlackIsIn = false);

    public sealed record Done(int Run);

    public sealed record IsStopped(int Run, IReadOnlyList<RunStop> Stops) : Refusal(
        $"{string.Join(" ", Stops.Select(s => s.Why.Message))} Nothing was drawn. Settle it, or decide on the run card, with your reason, whether it goes on.");

    public sealed record AnotherBlackIsIn(int Run, string Printer, BlackInk Has, BlackInk Wants) : Refusal(
        $"{Printer} has {HandlingAdvice.BlackWords(Has)} in, and run {Run} prints with {HandlingAdvice.BlackWords(Wants)}. Nothing was drawn. Put it in, and tick that it is.");

    public sealed record OrderStopsIt(int Run, string Stops, bool Nameless) : Refusal(
        $"{Stops} Run {Run} was not begun. Settle it at the order, or decide to go on: say why{(Nameless ? ", and say who you are under People" : "")}.");

    public sealed record HasBegun(int Run) : Refusal($"Run {Run} has begun already. Its paper was drawn once.");
}

public sealed record NoSuchRun(int Run) : Refusal($"There is no run {Run}.");
