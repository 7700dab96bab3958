using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Judges a profile of the room on another reading than it was made from; nothing is written down.</summary>
public sealed class JudgeProfile(RoomStore room, FileShelf files)
{
    public async Task<Outcome<WorthRecord>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var profile = await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == request.Profile, cancel);
        var reading = await db.Readings.AsNoTracking().SingleOrDefaultAsync(r => r.Number == request.Reading, cancel);
        if (profile is null || reading is null || !files.Has(profile.FileHash) || !files.Has(reading.FileHash))
        {
            return new BringInProfile.ChooseAReading();
        }

        var worth = await VerifyProfile.JudgeAsync(
            files.PathOf(profile.FileHash), profile.Name, files.PathOf(reading.FileHash), ChartReading.ConditionOf(reading.MCondition), cancel);
        return worth.Granted ? WorthRecord.Of(worth.Value) : worth.Refusal;
    }

    public sealed record Request(int Profile, int Reading);
}
