using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>Ends an order: cancels it when nothing came, closes it when the rest will not come.</summary>
public sealed class EndOrder(RoomStore room)
{
    private const int LongestWhy = 200;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var order = await db.Purchases.FindAsync([request.Order], cancel);
            if (order is null)
            {
                return new NoSuchPurchase(request.Order);
            }

            if (order.State is PurchaseState.Closed or PurchaseState.Cancelled)
            {
                return new NothingIsOnTheWay(order.Number, order.State);
            }

            if (request.Why.Trim().Length is 0 or > LongestWhy)
            {
                return new SayWhy();
            }

            order.State = order.State is PurchaseState.PartDelivered ? PurchaseState.Closed : PurchaseState.Cancelled;
            order.EndedWhy = request.Why.Trim();
            return new Done(order.State);
        }, cancel);

    public sealed record Request(int Order, string Why);

    public sealed record Done(PurchaseState State);

    public sealed record SayWhy() : Refusal($"Say why, in at most {LongestWhy} letters: somebody will ask.");
}
