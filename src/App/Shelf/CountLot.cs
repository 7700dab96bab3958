using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Writes down what was counted on the shelf, and moves the difference.</summary>
public sealed class CountLot(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Moved>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Counted is < 0 or > PutAway.Request.Most)
        {
            return new NotACount(request.Counted);
        }

        var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), request.Why, "stock count");
        return await room.MoveAsync(wish, request.ToString(), request.Lot, (_, lot, balance) =>
            Task.FromResult<Outcome<Planned>>(new Planned(lot.Count(balance, request.Counted, wish))), cancel);
    }

    public sealed record Request(CommandId Command, PersonName By, LotCode Lot, long Counted, string? Why = null);

    public sealed record NotACount(long Counted) : Refusal($"{Counted} cannot be counted: a count is 0 or more.");
}
