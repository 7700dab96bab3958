using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>The file of a profile for programs that read no version 4.</summary>
public sealed class TakeOlderProfile(RoomStore room, FileShelf files)
{
    public async Task<Outcome<WriteOlderProfile.Done>> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var profile = await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == number, cancel);
        return profile is null || !files.Has(profile.FileHash)
            ? new DecideProfile.NoSuchProfile(number)
            : await WriteOlderProfile.OfAsync(files.PathOf(profile.FileHash), $"{profile.Condition}-{profile.Version}", cancel);
    }
}
