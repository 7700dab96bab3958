using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>The file of a profile for programs that read no version 4.</summary>
public sealed class TakeOlderProfile(RoomStore room, FileShelf files)
{
    public async Task<Outcome<WriteOlderProfile.Done>> RunAsync(int number, CancellationToken cancel = default) =>
        await PathAsync(number, cancel) is var (path, name) ? await WriteOlderProfile.OfAsync(path, name, cancel) : new DecideProfile.NoSuchProfile(number);

    /// <summary>Whether there can be one, and if not why: nothing is written.</summary>
    public async Task<Outcome<Possible>> AskAsync(int number, CancellationToken cancel = default) =>
        await PathAsync(number, cancel) is var (path, _) ? await WriteOlderProfile.AskAsync(path, cancel) : new DecideProfile.NoSuchProfile(number);

    private async Task<(string Path, string Name)?> PathAsync(int number, CancellationToken cancel)
    {
        await using var db = room.Open();
        var profile = await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == number, cancel);
        return profile is null || !files.Has(profile.FileHash) ? null : (files.PathOf(profile.FileHash), $"{profile.Condition}-{profile.Version}");
    }

    public sealed record Possible;
}
