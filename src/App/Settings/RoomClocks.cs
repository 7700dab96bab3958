using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;

namespace Goodsheet.App.Settings;

public static class RoomClocks
{
    /// <summary>A clock in the room's own time zone.</summary>
    public static async Task<RoomClock> ClockAsync(this RoomStore room, CancellationToken cancel)
    {
        await using var db = room.Open();
        var clock = new RoomClock();
        if (await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel) is { } settings)
        {
            clock.Take(settings.TimeZone);
        }

        return clock;
    }
}
