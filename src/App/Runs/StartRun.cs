using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;
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

            var profile = await db.Profiles.SingleAsync(p => p.Number == run.Profile, cancel);
            if (profile.Standing is not (Standing.Trusted or Standing.Due) && run.Decision is null)
            {
                return new ProfileIsNotTrusted(profile.Number, profile.Standing, profile.StandingWhy);
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
            var loaded = await db.Loaded.FindAsync([run.Printer], cancel);
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
    public sealed record Request(CommandId Command, PersonName By, int Run, string Why = "");

    public sealed record Done(int Run);

    public sealed record ProfileIsNotTrusted(int Profile, Standing Standing, string Why)
        : Refusal($"Profile {Profile} of this run is {Standing.ToString().ToLowerInvariant()}{(Why.Length > 0 ? $": {Why}" : "")}. Nothing was drawn. Decide on the run card, with your reason, whether it goes on.");

    public sealed record OrderStopsIt(int Run, string Stops, bool Nameless) : Refusal(
        $"{Stops} Run {Run} was not begun. Settle it at the order, or decide to go on: say why{(Nameless ? ", and say who you are under People" : "")}.");

    public sealed record HasBegun(int Run) : Refusal($"Run {Run} has begun already. Its paper was drawn once.");
}

public sealed record NoSuchRun(int Run) : Refusal($"There is no run {Run}.");
