using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Papers;

/// <summary>The sizes of sheets and rolls the room knows.</summary>
public sealed class ShowFormats(RoomStore room)
{
    public async Task<IReadOnlyList<Format>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return (await db.Formats.AsNoTracking().ToListAsync(cancel)).OrderBy(f => f.Code.Value, StringComparer.Ordinal).ToList();
    }
}
