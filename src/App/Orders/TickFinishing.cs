using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Orders;

/// <summary>Ticks a step of an order's finishing; ticking it again takes nothing back. A dry-down is over when the prints are dry, or when a person says why not.</summary>
public sealed class TickFinishing(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.FinishSteps.FindAsync([request.Order, request.Step], cancel) is not { } step)
            {
                return new NoSuchStep();
            }

            if (step.DoneAt is not null)
            {
                return new Done(step.Kind); // by another hand already
            }

            var now = clock.GetUtcNow();
            var steps = await db.FinishSteps.AsNoTracking().Where(s => s.Order == request.Order).ToListAsync(cancel);
            if (DryDown.Before(steps, step) is { } early)
            {
                return early;
            }

            if (step.Kind is FinishKind.DryDown
                && DryDown.Wait(await ShowFinishing.MadeAsync(db, request.Order, cancel), now, clock.LocalTimeZone) is { } wait)
            {
                var why = request.Why.Trim();
                if (wait is not DryDown.Drying drying || why.Length == 0)
                {
                    return wait;
                }

                if (why.Length > OrderLog.LongestText)
                {
                    return new SayWhy("Why is it not left to dry?");
                }

                await OrderLog.AddAsync(db, request.Order, FactKind.DriedShort, $"They are dry on {drying.At:d MMM} at {drying.At:HH:mm} only: {why}", now, request.By, cancel);
            }

            (step.DoneAt, step.DoneBy) = (now, request.By);
            return new Done(step.Kind);
        }, cancel);

    /// <param name="Why">Why a dry-down is ended before its time; empty when it is not.</param>
    public sealed record Request(PersonName By, int Order, int Step, string Why = "");

    public sealed record Done(FinishKind Kind);

    public sealed record NoSuchStep() : Refusal("This step is not in the list any more.");
}
