using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>Writes down a reading of an instrument's check tile, and says whether the instrument still reads as it did.</summary>
public sealed class ReadTile(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.L is not (>= 0 and <= 110) || request.A is not (>= -128 and <= 128) || request.B is not (>= -128 and <= 128))
            {
                return new NotAColour();
            }

            if (!await db.Instruments.AnyAsync(i => i.Serial == request.Instrument, cancel))
            {
                return new NoSuchInstrument(request.Instrument);
            }

            var earlier = (await db.TileReadings.AsNoTracking().Where(r => r.Instrument == request.Instrument).ToListAsync(cancel)).OrderBy(r => r.At);
            db.TileReadings.Add(new()
            {
                Id = Guid.CreateVersion7(),
                Instrument = request.Instrument,
                L = request.L,
                A = request.A,
                B = request.B,
                At = clock.GetUtcNow(),
                By = request.By,
            });
            return new Done(TileState.Of([.. earlier.Select(r => new Lab(r.L, r.A, r.B)), new(request.L, request.A, request.B)]));
        }, cancel);

    public sealed record Request(PersonName By, string Instrument, double L, double A, double B);

    public sealed record Done(TileState State);

    public sealed record NotAColour() : Refusal("L* lies between 0 and 110, a* and b* between −128 and 128. Nothing was written down.");

    public sealed record NoSuchInstrument(string Serial) : Refusal($"There is no instrument {Serial}.");
}
