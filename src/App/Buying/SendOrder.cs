using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Buying;

/// <summary>Marks an order as sent, and keeps the day that the supplier's own calendar promises for it.</summary>
/// <remarks>The room sends no mail: the keeper sends the text or the file, and says so here.</remarks>
public sealed class SendOrder(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow());
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            var order = await db.Purchases.FindAsync([request.Order], cancel);
            if (order is null)
            {
                return new NoSuchPurchase(request.Order);
            }

            if (before.Value)
            {
                return new Done(order.Number, order.PromisedOn!.Value);
            }

            if (order.MayChange().Refusal is { } sent)
            {
                return sent;
            }

            var lines = await db.PurchaseLines.Where(l => l.Order == order.Number).ToListAsync(cancel);
            var pieces = await db.PurchasePieces.Where(l => l.Order == order.Number).ToListAsync(cancel);
            if (lines.Count + pieces.Count == 0)
            {
                return new NothingOnIt(order.Number);
            }

            var sending = (await db.ClocksAsync(clock.Today(), cancel))[order.Supplier];
            var sum = lines.Sum(l => l.Sum ?? 0) + pieces.Sum(p => p.Sum ?? 0);
            if (lines.All(l => l.Price is not null) && pieces.All(p => p.Price is not null) && sum < sending.Supplier.MinimumOrder)
            {
                return new UnderTheMinimum(sum, sending.Supplier.MinimumOrder);
            }

            var way = sending.Ways.FirstOrDefault(w => w.Name == order.Way) ?? sending.Usual;
            order.State = PurchaseState.Sent;
            (order.SentAt, order.SentBy) = (wish.At, request.By);
            order.PromisedOn = sending.Clock.Promise(way, wish.At).ComesOn;
            return new Done(order.Number, order.PromisedOn.Value);
        }, cancel);

    public sealed record Request(CommandId Command, PersonName By, int Order);

    public sealed record Done(int Order, DateOnly PromisedOn);

    public sealed record NothingOnIt(int Order) : Refusal($"Nothing is on order {Order}. Add a line first.");

    public sealed record UnderTheMinimum(decimal Sum, decimal Minimum)
        : Refusal($"The order comes to {Sum:0.00}, and the supplier takes none under {Minimum:0.00}. Add to it, or wait.");
}
