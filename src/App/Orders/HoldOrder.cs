using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Orders;

/// <summary>Puts an order on hold with its reason, lets it go on, or cancels it.</summary>
public sealed class HoldOrder(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var why = request.Why.Trim();
            if (why.Length > OrderLog.LongestText || (why.Length == 0 && request.To is not To.GoOn))
            {
                return new SayWhy(request.To is To.Hold ? "Why is it on hold?" : "Why is it cancelled?");
            }

            var found = await OrderLog.FindAsync(db, request.Order, cancel);
            if (found.Value is not { } order)
            {
                return found.Refusal!;
            }

            if (order.State is OrderState.Done or OrderState.Cancelled)
            {
                return new AskApproval.IsClosed(order.Number, order.State);
            }

            if (request.To is To.GoOn && order.State is not OrderState.OnHold)
            {
                return new Done(); // released by another hand already
            }

            (order.State, order.StateWhy) = request.To switch
            {
                To.Hold => (OrderState.OnHold, why),
                To.Cancel => (OrderState.Cancelled, why),
                _ => (OrderRules.Free(order), ""),
            };
            var kind = request.To switch { To.Hold => FactKind.PutOnHold, To.Cancel => FactKind.Cancelled, _ => FactKind.Released };
            await OrderLog.AddAsync(db, order.Number, kind, why, clock.GetUtcNow(), request.By, cancel);
            return new Done();
        }, cancel);

    public enum To
    {
        Hold = 1,
        GoOn = 2,
        Cancel = 3,
    }

    public sealed record Request(PersonName By, int Order, To To, string Why);

    public sealed record Done;
}
