using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Who a browser's cookies belong to.</summary>
public sealed class IdentifyVisitor(RoomStore room, TimeProvider clock)
{
    /// <summary>The person who was picked at the room's own machine; null when nobody of that name works here.</summary>
    public async Task<PersonName?> PickedAsync(string name, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return (await db.People.AsNoTracking().SingleOrDefaultAsync(p => p.Name == new PersonName(name) && !p.Gone, cancel))?.Name;
    }

    /// <summary>The device that brings this token; null when it is not let in, or not any more.</summary>
    public async Task<Device?> BearerAsync(string token, CancellationToken cancel = default)
    {
        var hash = DeviceToken.HashOf(token);
        await using var db = room.Open();
        var device = await db.Devices.AsNoTracking().SingleOrDefaultAsync(d => d.TokenHash == hash, cancel);
        return device?.IsAdmitted(clock.GetUtcNow()) is true ? device : null;
    }
}
