using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Lets a lot go to clients after its best before, on the word of a person who proved it.</summary>
public sealed class ExtendLot(RoomStore room, TimeProvider clock)
{
    // Past this a proof of today says little; common practice, no source.
    private const int MostMonths = 12;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.Lots.FindAsync([request.Lot], cancel) is not { } lot)
            {
                return new NoSuchLot(request.Lot);
            }

            var today = clock.Today();
            if (lot.BestBefore is not { } best)
            {
                return new NothingToExtend(lot.Code);
            }

            if (request.Until <= best || request.Until < today || request.Until > today.AddMonths(MostMonths))
            {
                return new NotUntil(request.Until);
            }

            if (request.Proof.Trim().Length == 0)
            {
                return new SayHowItWasProved();
            }

            lot.ExtendedTo = request.Until;
            db.Decisions.Add(new()
            {
                Id = Guid.CreateVersion7(),
                About = $"lot {lot.Code}",
                What = $"good until {request.Until:yyyy-MM-dd}",
                Why = request.Proof.Trim(),
                At = clock.GetUtcNow(),
                By = request.By,
            });
            return new Done(lot.Code, request.Until);
        }, cancel);

    /// <param name="Proof">What was printed and how it looked: a strip read, a print beside an earlier one.</param>
    public sealed record Request(PersonName By, LotCode Lot, DateOnly Until, string Proof);

    public sealed record Done(LotCode Lot, DateOnly Until);

    public sealed record NothingToExtend(LotCode Lot) : Refusal($"Lot {Lot} has no best before: there is nothing to extend.");

    public sealed record NotUntil(DateOnly Until) : Refusal($"{Until:yyyy-MM-dd} cannot be: extend past its best before, from today at most {MostMonths} months ahead. Nothing was changed.");

    public sealed record SayHowItWasProved() : Refusal("Out-of-date paper goes to a client only after a proof: say what was printed on it and how it looked. Nothing was changed.");
}
