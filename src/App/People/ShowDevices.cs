using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Phones and screens that are let in now, newest first.</summary>
public sealed class ShowDevices(RoomStore room, TimeProvider clock)
{
    public async Task<IReadOnlyList<Device>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var now = clock.GetUtcNow();
        return await db.Devices.AsNoTracking().Where(d => d.RevokedAt == null && d.Until > now)
            .OrderByDescending(d => d.Since).ToListAsync(cancel);
    }
}
