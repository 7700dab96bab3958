using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.Profiles;

/// <summary>Takes a profile from elsewhere into the room, judged against a chart of the condition it is to be used in.</summary>
public sealed class BringInProfile(RoomStore room, FileShelf files, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var reading = await db.Readings.AsNoTracking().SingleOrDefaultAsync(r => r.Number == request.Reading, cancel);
        if (reading is not { Condition: { } condition } || !files.Has(reading.FileHash) || !files.Has(request.FileHash))
        {
            return new ChooseAReading();
        }

        var worth = await VerifyProfile.JudgeAsync(
            files.PathOf(request.FileHash), request.FileName, files.PathOf(reading.FileHash), ChartReading.ConditionOf(reading.MCondition), cancel);
        if (!worth.Granted)
        {
            return worth.Refusal;
        }

        return await room.ChangeAsync<Done>(async change =>
        {
            if (await change.Profiles.FirstOrDefaultAsync(p => p.Condition == condition && p.FileHash == request.FileHash, cancel) is { } again)
            {
                return new Done(again.Number);
            }

            var profile = await change.NewProfileAsync(
                condition, null, Path.GetFileNameWithoutExtension(request.FileName), request.FileHash, worth.Value,
                new(clock.GetUtcNow(), request.By, $"brought in, and judged on reading {reading.Number}; it was not made from it"), cancel);
            change.Profiles.Add(profile);
            return new Done(profile.Number);
        }, cancel);
    }

    public sealed record Request(PersonName By, string FileHash, string FileName, int Reading);

    public sealed record Done(int Profile);

    public sealed record ChooseAReading() : Refusal("Choose a reading of the printer and paper it is for: a profile is judged on a chart that was measured here. Nothing was kept.");
}
