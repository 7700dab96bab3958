using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Who works in the room.</summary>
public sealed class ShowPeople(RoomStore room)
{
    public async Task<IReadOnlyList<Person>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.People.AsNoTracking().Where(p => !p.Gone).OrderBy(p => p.Name).ToListAsync(cancel);
    }
}
