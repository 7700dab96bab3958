using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Settings;

namespace Goodsheet.App.Settings;

/// <summary>What the room says of itself.</summary>
public sealed class ShowSettings(RoomStore room)
{
    public async Task<RoomSettings> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
    }
}
