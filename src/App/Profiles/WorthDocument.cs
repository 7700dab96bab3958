using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Documents;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>What a profile of the room is worth, as a document to keep with the paper.</summary>
public sealed class WorthDocument(RoomStore room, FileShelf files)
{
    public async Task<Outcome<Document>> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var profile = await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == number, cancel);
        return profile is null || ShowProfiles.WorthOf(profile) is not { } worth ? new DecideProfile.NoSuchProfile(number)
            : WorthPages.Draw(
                $"Profile {number}: {profile.Name}", $"made {profile.MadeAt:yyyy-MM-dd} by {profile.By}, {profile.Standing.ToString().ToLowerInvariant()}: {profile.StandingWhy}",
                worth, await ShowGamut.ShapeAsync(files, profile.FileHash, cancel), $"profile-{number}.pdf");
    }
}
