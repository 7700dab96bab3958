using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.App.Profiles;

/// <summary>Makes the profile of a reading's printing condition, as long work. About: the reading's number.</summary>
public sealed class MakeRoomProfile(RoomStore room, FileShelf files, TimeProvider clock, MakeProfile make) : LongWork(room)
{
    /// <summary>Nodes along each side of the tables; none for what suits.</summary>
    internal int? Grid { get; set; }

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var number = int.Parse(about.Split(' ')[^1], CultureInfo.InvariantCulture);
        await using var db = Room.Open();
        var reading = await db.Readings.AsNoTracking().SingleAsync(r => r.Number == number, cancel);
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == reading.Paper, cancel);
        var condition = await db.Conditions.AsNoTracking().SingleAsync(c => c.Code == reading.Condition, cancel);
        await tell(2);
        var name = $"{paper.Name} on {condition.Printer}, {clock.Today():yyyy-MM-dd}";
        var done = await make.RunAsync(
            new([files.PathOf(reading.FileHash)], name, Grid: Grid, Matte: paper.Coat is Coat.Dull), new Progress<double>(p => tell((int)(2 + (95 * p)))), cancel);
        if (!done.Granted)
        {
            return done.Refusal.Message;
        }

        var path = files.NewPath(".icc");
        await File.WriteAllBytesAsync(path, done.Value.File, cancel);
        var kept = await files.KeepMadeAsync(path, cancel);
        var worth = done.Value.Worth;
        var stored = await Room.ChangeAsync<Stored>(async change =>
        {
            if (await change.Profiles.FirstOrDefaultAsync(p => p.MadeFrom == number && p.FileHash == kept.Hash, cancel) is { } again)
            {
                return new Stored(again.Number);
            }

            var profile = new Room.Profiles.Profile
            {
                Number = (await change.Profiles.MaxAsync(p => (int?)p.Number, cancel) ?? 0) + 1,
                Condition = condition.Code,
                Version = (await change.Profiles.Where(p => p.Condition == condition.Code).MaxAsync(p => (int?)p.Version, cancel) ?? 0) + 1,
                Name = name,
                FileHash = kept.Hash,
                MadeFrom = number,
                MadeAt = clock.GetUtcNow(),
                By = PersonName.TheRoom,
                MeanError = worth.Judged.Mean.Value,
                P95Error = worth.Judged.P95.Value,
                MaxError = worth.Judged.Largest.Value,
                GamutVolume = worth.Gamut?.Volume,
                Worth = JsonSerializer.Serialize(WorthRecord.Of(worth)),
                StandingWhy = "just made; trust it when its figures and a print convince you",
            };
            change.Profiles.Add(profile);
            return new Stored(profile.Number);
        }, cancel);
        return $"Profile {stored.Value!.Number} is made: {worth.Verdict.ToLowerInvariant()}.";
    }

    private sealed record Stored(int Number);
}
