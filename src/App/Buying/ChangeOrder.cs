using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Buying;

/// <summary>Changes a proposed order: packs of its lines, 0 takes a line off; one more item; the way it is sent.</summary>
public sealed class ChangeOrder(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var order = await db.Purchases.FindAsync([request.Order], cancel);
            if (order is null)
            {
                return new NoSuchPurchase(request.Order);
            }

            if (order.MayChange().Refusal is { } sent)
            {
                return sent;
            }

            if (request.Packs.Values.Append(request.Add?.Packs ?? 1).Any(p => p is < 0 or > PriceLimits.MostPacks))
            {
                return new NotPacks();
            }

            if (request.Way is { } way)
            {
                if (await db.Dispatches.FindAsync([order.Supplier, way], cancel) is null)
                {
                    return new NoSuchWay(way);
                }

                order.Way = way;
            }

            var today = clock.Today();
            var prices = (await db.Prices.AsNoTracking().Where(p => p.Supplier == order.Supplier && p.From <= today).ToListAsync(cancel))
                .ToLookup(p => new ItemCode(p.Paper, p.Format));
            var lines = await db.PurchaseLines.Where(l => l.Order == order.Number).OrderBy(l => l.Line).ToListAsync(cancel);
            foreach (var line in lines.Where(l => request.Packs.ContainsKey(l.Line)))
            {
                line.Packs = request.Packs[line.Line];
                line.Price = PriceList.PriceOf([.. prices[new(line.Paper, line.Format)]], line.Packs);
                if (line.Packs == 0)
                {
                    db.PurchaseLines.Remove(line);
                }
            }

            var pieces = await db.PurchasePieces.Where(l => l.Order == order.Number).ToListAsync(cancel);
            foreach (var line in pieces.Where(l => request.Packs.ContainsKey(l.Line)))
            {
                line.Pieces = request.Packs[line.Line];
                if (line.Pieces == 0)
                {
                    db.PurchasePieces.Remove(line);
                }
            }

            var next = lines.Select(l => l.Line).Concat(pieces.Select(p => p.Line)).DefaultIfEmpty(0).Max() + 1;
            if (request.AddPieces is { } code)
            {
                return await AddPiecesAsync(db, order, pieces, code, next, cancel);
            }

            return request.Add is { } more ? await AddAsync(db, order, lines, more, next, [.. prices[more.Item]], cancel) : new Done(order.Number);
        }, cancel);

    private static async Task<Outcome<Done>> AddAsync(
        RoomDb db, PurchaseOrder order, List<PurchaseLine> lines, More more, int next, IReadOnlyList<PriceLine> prices, CancellationToken cancel)
    {
        if (await db.Items.FindAsync([more.Item.Paper, more.Item.Format], cancel) is not { } item)
        {
            return new NotKept(more.Item);
        }

        if (lines.Any(l => l.Paper == item.Paper && l.Format == item.Format && l.Packs > 0))
        {
            return new IsOnIt(item.Code);
        }

        if (more.Packs > 0)
        {
            db.PurchaseLines.Add(new()
            {
                Order = order.Number,
                Line = next,
                Paper = item.Paper,
                Format = item.Format,
                Packs = more.Packs,
                PackSize = PriceList.PackOf(prices) ?? item.PackSize,
                Price = PriceList.PriceOf(prices, more.Packs),
                Reason = "Added by hand.",
            });
        }

        return new Done(order.Number);
    }

    private static async Task<Outcome<Done>> AddPiecesAsync(
        RoomDb db, PurchaseOrder order, List<PiecesLine> pieces, ConsumableCode code, int next, CancellationToken cancel)
    {
        if (await db.Consumables.FindAsync([code], cancel) is not { } consumable)
        {
            return new Shelf.NoSuchConsumable(code);
        }

        if (pieces.Any(p => p.Consumable == code && p.Pieces > 0))
        {
            return new PiecesAreOnIt(consumable.Name);
        }

        db.PurchasePieces.Add(new() { Order = order.Number, Line = next, Consumable = code, Pieces = 1, Price = consumable.Price, Reason = "Added by hand." });
        return new Done(order.Number);
    }

    /// <param name="Packs">By line; lines that are not named stay as they are.</param>
    public sealed record Request(int Order, IReadOnlyDictionary<int, int> Packs, More? Add = null, string? Way = null, ConsumableCode? AddPieces = null);

    public sealed record More(ItemCode Item, int Packs);

    public sealed record Done(int Order);

    public sealed record NotPacks() : Refusal($"Packs are whole, from 0 to {PriceLimits.MostPacks}. The order is as it was.");

    public sealed record NoSuchWay(string Way) : Refusal($"The supplier has no way of sending called “{Way}”.");

    public sealed record NotKept(ItemCode Item) : Refusal($"The room does not keep {Item}.");

    public sealed record PiecesAreOnIt(string Name) : Refusal($"{Name} is on this order already. Change its pieces.");

    public sealed record IsOnIt(ItemCode Item) : Refusal($"{Item} is on this order already. Change its packs.");
}
