using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
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

    public sealed record Request(CommandId Command, PersonName By, int Run);

    public sealed record Done(int Run);

    public sealed record ProfileIsNotTrusted(int Profile, Standing Standing, string Why)
        : Refusal($"Profile {Profile} of this run is {Standing.ToString().ToLowerInvariant()}{(Why.Length > 0 ? $": {Why}" : "")}. Nothing was drawn. Decide on the run card, with your reason, whether it goes on.");

    public sealed record HasBegun(int Run) : Refusal($"Run {Run} has begun already. Its paper was drawn once.");
}

public sealed record NoSuchRun(int Run) : Refusal($"There is no run {Run}.");
