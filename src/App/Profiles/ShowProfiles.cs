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
    /// <summary>What a finding begins with that only says how the file was taken.</summary>
    public const string AsItCame = "As it came: ";

    public async Task<IReadOnlyList<Line>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await (
            from profile in db.Profiles.AsNoTracking()
            join condition in db.Conditions on profile.Condition equals condition.Code
            join paper in db.Papers on condition.Paper equals paper.Code
            join printer in db.Printers on condition.Printer equals printer.Code
            orderby profile.Number descending
            select new Line(profile, condition, paper, printer.Name)).ToListAsync(cancel);
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
            join printer in db.Printers on condition.Printer equals printer.Code
            orderby reading.Number descending
            select new ReadingLine(reading, condition, paper, printer.Name)).ToListAsync(cancel);
    }

    /// <summary>What a printing condition has been through: its profiles, what was decided about them, and what of it changed.</summary>
    public async Task<History> HistoryAsync(ConditionCode condition, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var versions = await db.Profiles.AsNoTracking().Where(p => p.Condition == condition).OrderBy(p => p.Version).ToListAsync(cancel);
        var prints = await db.Fingerprints.AsNoTracking().Where(f => f.Condition == condition).OrderBy(f => f.Number).ToListAsync(cancel);
        string[] about = [.. versions.Select(p => $"profile {p.Number}")];
        var decisions = await db.Decisions.AsNoTracking().Where(d => about.Contains(d.About)).ToListAsync(cancel);
        return new(versions, prints.Count > 0 ? prints[^1] : null,
        [
            .. versions.Select(p => new Event(p.MadeAt, $"Version {p.Version} {(p.MadeFrom is { } reading ? $"made from reading {reading}" : "brought in")}", p.Name, p.Number))
                .Concat(decisions.Select(d => new Event(d.At, $"{(d.What == "trusted" ? "Trusted" : "Retired")}: {d.About}", $"{d.Why} ({d.By})", null)))
                .Concat(prints.Where(f => f.Changed is not null).Select(f => new Event(f.At, "The condition changed", f.Changed!, null)))
                .OrderBy(e => e.At),
        ]);
    }

    public static WorthRecord? WorthOf(Profile profile) =>
        profile.Worth is { } json ? JsonSerializer.Deserialize<WorthRecord>(json) : null;

    /// <param name="Versions">All profiles of the condition.</param>
    /// <param name="Now">What must stay as it is for its profile to hold; none where nothing was written down.</param>
    /// <param name="Events">The earliest first.</param>
    public sealed record History(IReadOnlyList<Profile> Versions, Fingerprint? Now, IReadOnlyList<Event> Events);

    /// <param name="At">When.</param>
    /// <param name="What">In words.</param>
    /// <param name="More">What else is to be said.</param>
    /// <param name="Profile">The profile to look at, where it is about one.</param>
    public sealed record Event(DateTimeOffset At, string What, string More, int? Profile);

    public sealed record Line(Profile Profile, PrintingCondition Condition, Paper Paper, string Printer);

    public sealed record ReadingLine(Reading Reading, PrintingCondition Condition, Paper Paper, string Printer)
    {
        public string Words => $"{Reading.Number}: {Paper.Name} on {Printer}, {Reading.Patches} patches in {Reading.MCondition}";
    }

    public sealed record ReadingPage(
        Reading Reading, Paper Paper, ClassRule Rule, IReadOnlyList<string> Findings, IReadOnlyList<Profile> Profiles, IReadOnlyList<int> Earlier, int Channels)
    {
        /// <summary>What looks wrong, with what to do.</summary>
        public IReadOnlyList<string> Doubts => [.. Findings.Where(f => !f.StartsWith(AsItCame, StringComparison.Ordinal))];

        /// <summary>How the file was taken.</summary>
        public IReadOnlyList<string> Notes => [.. Findings.Where(f => f.StartsWith(AsItCame, StringComparison.Ordinal)).Select(f => f[AsItCame.Length..])];
    }
}
