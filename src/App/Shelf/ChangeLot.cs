using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Writes down where a lot lies now, and what it may be used for.</summary>
public sealed class ChangeLot(RoomStore room, TimeProvider clock)
{
    private const int LongestPlace = 80;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.Lots.FindAsync([request.Lot], cancel) is not { } lot)
            {
                return new NoSuchLot(request.Lot);
            }

            if (request.Place.Trim().Length > LongestPlace)
            {
                return new PlaceIsLong();
            }

            lot.Place = request.Place.Trim();
            if (request.Condition == lot.Condition)
            {
                return new Done(lot.Code);
            }

            if (request.Why.Trim().Length == 0)
            {
                return new SayWhy();
            }

            (lot.Condition, lot.ConditionWhy) = (request.Condition, request.Condition is LotCondition.Sound ? null : request.Why.Trim());
            db.Decisions.Add(new()
            {
                Id = Guid.CreateVersion7(),
                About = $"lot {lot.Code}",
                What = request.Condition switch { LotCondition.Sound => "for clients again", LotCondition.TestsOnly => "for tests only", _ => "scrap" },
                Why = request.Why.Trim(),
                At = clock.GetUtcNow(),
                By = request.By,
            });
            return new Done(lot.Code);
        }, cancel);

    public sealed record Request(PersonName By, LotCode Lot, string Place, LotCondition Condition, string Why);

    public sealed record Done(LotCode Lot);

    public sealed record PlaceIsLong() : Refusal($"A place has at most {LongestPlace} letters.");
}
