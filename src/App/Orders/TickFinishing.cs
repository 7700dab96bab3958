using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Orders;

/// <summary>Ticks a step of an order's finishing; ticking it again takes nothing back.</summary>
public sealed class TickFinishing(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.FinishSteps.FindAsync([request.Order, request.Step], cancel) is not { } step)
            {
                return new NoSuchStep();
            }

            (step.DoneAt, step.DoneBy) = (step.DoneAt ?? clock.GetUtcNow(), step.DoneBy ?? request.By);
            return new Done(step.Kind);
        }, cancel);

    public sealed record Request(PersonName By, int Order, int Step);

    public sealed record Done(FinishKind Kind);

    public sealed record NoSuchStep() : Refusal("This step is not in the list any more.");
}
