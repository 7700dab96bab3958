using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Buying;

/// <summary>Writes the order that should go to a supplier now, with the reason of each line; it can be changed until it is sent.</summary>
public sealed class ProposeOrder(RoomStore room, TimeProvider clock)
{
    private const int FirstOrder = 101;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow());
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            var waits = await db.Purchases.Where(p => p.Supplier == request.Supplier && p.State == PurchaseState.Proposed)
                .Select(p => (int?)p.Number).MaxAsync(cancel);
            if (waits is { } number)
            {
                return new Done(number, false);
            }

            var advice = await db.AdviceAsync(clock, cancel);
            if (!advice.Sendings.TryGetValue(request.Supplier, out var sending) || sending.Ways.Count == 0)
            {
                return new NoSuchSupplier(request.Supplier);
            }

            var order = new PurchaseOrder
            {
                Number = Math.Max(FirstOrder, (await db.Purchases.MaxAsync(p => (int?)p.Number, cancel) ?? 0) + 1),
                Supplier = request.Supplier,
                Way = sending.Usual.Name,
                ProposedAt = advice.Now,
            };
            db.Purchases.Add(order);
            PurchaseLine[] lines = [.. advice.Lines.Where(l => l.Sending.Supplier.Code == request.Supplier && l.Reorder.Packs > 0)
                .Select((l, i) => new PurchaseLine
                {
                    Order = order.Number,
                    Line = i + 1,
                    Paper = l.Need.Item.Paper,
                    Format = l.Need.Item.Format,
                    Packs = l.Reorder.Packs,
                    PackSize = l.Need.Of.Pack,
                    Price = PriceList.PriceOf(l.Need.Prices, l.Reorder.Packs),
                    Reason = l.Reorder.Why(),
                })];
            db.PurchaseLines.AddRange(lines);
            db.PurchasePieces.AddRange(advice.Pieces.Where(p => p.Sending.Supplier.Code == request.Supplier && p.Pieces > 0)
                .Select((p, i) => new PiecesLine
                {
                    Order = order.Number,
                    Line = lines.Length + i + 1,
                    Consumable = p.Stock.Consumable.Code,
                    Pieces = p.Pieces,
                    Price = p.Stock.Consumable.Price,
                    Reason = p.Why,
                }));
            return new Done(order.Number, true);
        }, cancel);

    public sealed record Request(CommandId Command, PersonName By, SupplierCode Supplier);

    /// <param name="IsNew">False when a proposal for this supplier was waiting already.</param>
    public sealed record Done(int Order, bool IsNew);
}

public sealed record NoSuchPurchase(int Order) : Refusal($"There is no order {Order} to a supplier.");
