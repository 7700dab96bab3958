using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Sends paper back to its supplier, with the reason.</summary>
public sealed class SendBackPaper(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Moved>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Quantity is < 1 or > PutAway.Request.Most)
        {
            return new NotAQuantity(request.Quantity);
        }

        if (request.Why.Trim().Length == 0)
        {
            return new SayWhy();
        }

        var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), request.Why.Trim(), "sent back");
        return await room.MoveAsync(wish, request.ToString(), request.Lot, (lot, balance) => lot.SendBack(balance, request.Quantity, wish), cancel);
    }

    public sealed record Request(CommandId Command, PersonName By, LotCode Lot, long Quantity, string Why);
}

public sealed record SayWhy() : Refusal("Say why: the reason stays with the paper. Nothing was changed.");
