using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Takes paper off the shelf that can't be used any more, with its cause.</summary>
public sealed class SpoilPaper(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Moved>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Quantity is < 1 or > PutAway.Request.Most)
        {
            return new NotAQuantity(request.Quantity);
        }

        var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), request.Why);
        return await room.MoveAsync(
            wish, request.ToString(), request.Lot, (lot, balance) => lot.Spoil(balance, request.Quantity, request.Cause, wish), cancel);
    }

    public sealed record Request(
        CommandId Command, PersonName By, LotCode Lot, long Quantity, WasteCause Cause, string? Why = null);
}
