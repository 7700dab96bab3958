using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>The measuring instruments, and whether each still reads as it did.</summary>
public sealed class ShowInstruments(RoomStore room, TimeProvider clock)
{
    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var tiles = (await db.TileReadings.AsNoTracking().ToListAsync(cancel)).OrderBy(r => r.At).ToLookup(r => r.Instrument);
        var instruments = await db.Instruments.AsNoTracking().OrderBy(i => i.Name).ToListAsync(cancel);
        return new(clock.Today(), [.. instruments.Select(i => new Line(i, [.. tiles[i.Serial]], TileState.Of([.. tiles[i.Serial].Select(r => new Lab(r.L, r.A, r.B))])))]);
    }

    public sealed record Page(DateOnly Today, IReadOnlyList<Line> Instruments);

    public sealed record Line(Instrument Instrument, IReadOnlyList<TileReading> Tile, TileState State);
}
