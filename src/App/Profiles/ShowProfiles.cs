using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Papers;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>The room's profiles and readings, and what each is worth.</summary>
public sealed class ShowProfiles(RoomStore room)
{
    public async Task<IReadOnlyList<Line>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await (
            from profile in db.Profiles.AsNoTracking()
            join condition in db.Conditions on profile.Condition equals condition.Code
            join paper in db.Papers on condition.Paper equals paper.Code
            orderby profile.Number descending
            select new Line(profile, condition, paper)).ToListAsync(cancel);
    }

    public async Task<Line?> OneAsync(int number, CancellationToken cancel = default) =>
        (await RunAsync(cancel)).SingleOrDefault(l => l.Profile.Number == number);

    public async Task<ReadingPage?> ReadingAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var reading = await db.Readings.AsNoTracking().SingleOrDefaultAsync(r => r.Number == number, cancel);
        if (reading is null)
        {
            return null;
        }

        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == reading.Paper, cancel);
        var rule = await db.ClassRules.AsNoTracking().SingleAsync(r => r.Class == paper.Class, cancel);
        var profiles = await db.Profiles.AsNoTracking().Where(p => p.MadeFrom == number).ToListAsync(cancel);
        var earlier = await db.Readings.AsNoTracking()
            .Where(r => r.Condition == reading.Condition && r.MCondition == reading.MCondition && r.Number < number).OrderBy(r => r.Number)
            .Select(r => r.Number).ToListAsync(cancel);
        return new(reading, paper, rule, JsonSerializer.Deserialize<List<string>>(reading.Findings)!, profiles, earlier, PaperLook.Read(reading.Figures)?.Channels ?? 0);
    }

    /// <summary>Readings of charts, the newest first.</summary>
    public async Task<IReadOnlyList<ReadingLine>> ReadingsAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await (
            from reading in db.Readings.AsNoTracking()
            join condition in db.Conditions on reading.Condition equals condition.Code
            join paper in db.Papers on condition.Paper equals paper.Code
            orderby reading.Number descending
            select new ReadingLine(reading, condition, paper)).ToListAsync(cancel);
    }

    public static WorthRecord? WorthOf(Profile profile) =>
        profile.Worth is { } json ? JsonSerializer.Deserialize<WorthRecord>(json) : null;

    public sealed record Line(Profile Profile, PrintingCondition Condition, Paper Paper);

    public sealed record ReadingLine(Reading Reading, PrintingCondition Condition, Paper Paper)
    {
        public string Words => $"{Reading.Number}: {Paper.Name} on {Condition.Printer}, {Reading.Patches} patches in {Reading.MCondition}";
    }

    public sealed record ReadingPage(
        Reading Reading, Paper Paper, ClassRule Rule, IReadOnlyList<string> Findings, IReadOnlyList<Profile> Profiles, IReadOnlyList<int> Earlier, int Channels);
}
