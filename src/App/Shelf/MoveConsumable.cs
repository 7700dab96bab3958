using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Puts pieces of a consumable away, takes them to use, or books what was counted.</summary>
public sealed class MoveConsumable(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), request.Why.Trim() is { Length: > 0 } why ? why : null);
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (await db.ConsumableStockAsync(request.Consumable, cancel) is not { } stock)
            {
                return new NoSuchConsumable(request.Consumable);
            }

            if (before.Value)
            {
                return new Done(stock.Left, await db.ConsumableMoves.AsNoTracking().Where(m => m.Command == request.Command).OrderBy(m => m.Line).ToListAsync(cancel));
            }

            if (request.Quantity > KeepConsumable.Request.MostPieces || request.Quantity < (request.What is Doing.Count ? 0 : 1))
            {
                return new NotSoManyPieces(request.Quantity);
            }

            var moves = request.What switch
            {
                Doing.PutAway => PutAway(db, stock, request, wish),
                Doing.Take => stock.Take(request.Quantity, clock.Today(), request.PastItsDate, wish),
                _ => Count(stock, request, wish),
            };
            if (!moves.Granted)
            {
                return moves.Refusal;
            }

            db.ConsumableMoves.AddRange(moves.Value);
            return new Done(stock.Left + moves.Value.Sum(m => m.To == Account.Shelf ? m.Quantity : m.From == Account.Shelf ? -m.Quantity : 0), moves.Value);
        }, cancel);

    private Outcome<IReadOnlyList<ConsumableMove>> PutAway(RoomDb db, ConsumableStock stock, Request request, Wish wish)
    {
        if (request.BestBefore < clock.Today())
        {
            return new CameOutOfDate(stock.Consumable.Name, request.BestBefore.Value);
        }

        var lot = new ConsumableLot
        {
            Consumable = request.Consumable,
            Number = stock.Lots.Count + 1,
            Received = clock.Today(),
            BestBefore = request.BestBefore,
            MakersNumber = request.MakersNumber.Trim(),
        };
        db.ConsumableLots.Add(lot);
        return new List<ConsumableMove> { stock.PutAway(lot.Number, request.Quantity, wish) };
    }

    private static Outcome<IReadOnlyList<ConsumableMove>> Count(ConsumableStock stock, Request request, Wish wish) =>
        stock.Lots.All(l => l.Number != request.Lot)
            ? new NoSuchPart(stock.Consumable.Name, request.Lot)
            : stock.Count(request.Lot, request.Quantity, wish) is { } move ? new List<ConsumableMove> { move } : new List<ConsumableMove>();

    public enum Doing
    {
        PutAway,
        Take,
        Count,
    }

    /// <param name="Quantity">Pieces: that came, that are taken, or that were counted of the lot.</param>
    /// <param name="Lot">Which was counted.</param>
    /// <param name="PastItsDate">Whether pieces past their date may be taken.</param>
    public sealed record Request(
        CommandId Command, PersonName By, ConsumableCode Consumable, Doing What, long Quantity, DateOnly? BestBefore = null, string MakersNumber = "",
        int Lot = 0, bool PastItsDate = false, string Why = "");

    public sealed record Done(long Left, IReadOnlyList<ConsumableMove> Moves);

    public sealed record NotSoManyPieces(long Quantity) : Refusal($"{Quantity} cannot be: pieces are counted from 1 (a count from 0) to {KeepConsumable.Request.MostPieces}. Nothing was changed.");

    public sealed record CameOutOfDate(string Name, DateOnly BestBefore) : Refusal($"{Name} was best before {BestBefore:yyyy-MM-dd}. Nothing was put away. Send it back.");

    public sealed record NoSuchPart(string Name, int Lot) : Refusal($"{Name} has no lot {Lot}. Nothing was changed.");
}
