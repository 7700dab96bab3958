using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Takes paper for the room's own charts, strips and proofs: out of date is allowed, scrap is not.</summary>
public sealed class UseForTests(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Moved>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Quantity is < 1 or > PutAway.Request.Most)
        {
            return new NotAQuantity(request.Quantity);
        }

        var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), request.What.Trim() is { Length: > 0 } what ? what : "chart, strip or proof");
        return await room.MoveAsync(wish, request.ToString(), request.Lot, (lot, balance) => lot.DrawForTests(balance, request.Quantity, wish), cancel);
    }

    public sealed record Request(CommandId Command, PersonName By, LotCode Lot, long Quantity, string What = "");
}
