using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Orders;

/// <summary>Says how an order is finished, packed and handed out; its steps follow.</summary>
public sealed class PlanFinishing(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var found = await OrderLog.FindAsync(db, request.Order, cancel);
            if (found.Value is not { } order)
            {
                return found.Refusal!;
            }

            if (order.OutAt is not null || order.State is OrderState.Cancelled)
            {
                return new IsOut(order.Number);
            }

            var steps = await db.FinishSteps.Where(s => s.Order == order.Number).ToListAsync(cancel);
            if (steps.Exists(s => s.DoneAt is not null))
            {
                return new HasBegun();
            }

            var papers = await db.Papers.AsNoTracking().Where(p => db.PrintLines.Any(l => l.Order == order.Number && l.Paper == p.Code)).ToListAsync(cancel);
            (order.Out, order.Packed) = (request.Out, request.Packed);
            db.FinishSteps.RemoveRange(steps);
            await db.SaveChangesAsync(cancel); // the new steps bear the old ones' numbers
            db.FinishSteps.AddRange(FinishingRules.Steps(papers, request.Coat, request.Packed)
                .Select((s, i) => new FinishStep { Order = order.Number, Number = i + 1, Kind = s.Kind, Text = s.Text }));
            return new Done();
        }, cancel);

    public sealed record Request(int Order, HandOut Out, PackedAs Packed, bool Coat);

    public sealed record Done;

    public sealed record IsOut(int Order) : Refusal($"Order {Order} is not in the room any more.");

    public sealed record HasBegun() : Refusal("Finishing has begun: a step is ticked. Nothing was changed.");
}
