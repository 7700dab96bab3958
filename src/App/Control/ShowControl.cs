using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Control;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Control;

/// <summary>A printing condition as its strips show it: the chart, what happened when, what waits for a decision.</summary>
public sealed class ShowControl(RoomStore room)
{
    /// <summary>The profile that is watched: the newest of the condition that is not retired.</summary>
    public async Task<Page?> RunAsync(ConditionCode code, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var condition = await db.Conditions.AsNoTracking().SingleOrDefaultAsync(c => c.Code == code, cancel);
        if (condition is null)
        {
            return null;
        }

        var profiles = await db.Profiles.AsNoTracking().Where(p => p.Condition == code).OrderByDescending(p => p.Number).ToListAsync(cancel);
        var profile = profiles.FirstOrDefault(p => p.Standing is not Standing.Retired) ?? profiles.FirstOrDefault();
        IReadOnlyList<WatchedStrip> strips = profile is null ? [] : StripHistory.Of(
            await db.StripReadings.AsNoTracking().Where(s => s.Profile == profile.Number).ToListAsync(cancel),
            await db.TrustedAgainAsync(profile.Number, cancel));
        var held = profile?.Standing is not Standing.Drifting ? [] : await db.Runs.AsNoTracking()
            .Where(r => r.Profile == profile.Number && r.State == RunState.Planned && r.Decision == null).Select(r => r.Number).ToListAsync(cancel);
        var abouts = held.Select(r => $"run {r}").Append($"profile {profile?.Number}").ToList();
        return new(
            condition,
            await db.Papers.AsNoTracking().SingleAsync(p => p.Code == condition.Paper, cancel),
            await db.Printers.AsNoTracking().SingleAsync(p => p.Code == condition.Printer, cancel),
            profile,
            strips,
            strips.Count == 0 ? null : JsonSerializer.Deserialize<StripVerdict>(strips[^1].Strip.Verdict),
            await EventsAsync(db, condition, strips.Count > 0 ? strips[0].Strip.At : DateTimeOffset.MaxValue, cancel),
            held,
            await db.Tolerances.AsNoTracking().OrderBy(t => t.Mean).ToListAsync(cancel),
            await db.Decisions.AsNoTracking().Where(d => abouts.Contains(d.About)).OrderBy(d => d.Id).ToListAsync(cancel),
            profile is null ? null : (await db.ReferenceAsync(profile, cancel))?.Number);
    }

    private static async Task<IReadOnlyList<Event>> EventsAsync(RoomDb db, PrintingCondition condition, DateTimeOffset since, CancellationToken cancel)
    {
        var changed = await db.Fingerprints.AsNoTracking().Where(f => f.Condition == condition.Code && f.Changed != null).ToListAsync(cancel);
        var opened = await db.Lots.AsNoTracking().Where(l => l.Paper == condition.Paper && l.Opened != null).ToListAsync(cancel);
        var befell = await db.PrinterEvents.AsNoTracking().Where(e => e.Printer == condition.Printer).ToListAsync(cancel);
        var cared = await (
            from done in db.CareDone.AsNoTracking()
            join task in db.CareTasks on done.Task equals task.Number
            where task.Printer == condition.Printer && task.Marks != null
            select new { done.At, task.Marks, task.Name }).ToListAsync(cancel);
        return
        [
            .. changed.Select(f => new Event(f.At, f.Changed!))
                .Concat(opened.Select(l => new Event(new(l.Opened!.Value.ToDateTime(new(8, 0)), TimeSpan.Zero), $"New lot {l.Code}")))
                .Concat(befell.Select(e => new Event(e.At, e.InWords)))
                .Concat(cared.Select(c => new Event(c.At, $"{PrinterEvent.Words(c.Marks!.Value)}: {c.Name}")))
                .Where(e => e.At >= since).OrderBy(e => e.At),
        ];
    }

    /// <param name="Condition">What is watched.</param>
    /// <param name="Paper">Its paper.</param>
    /// <param name="Printer">Its printer.</param>
    /// <param name="Profile">The profile in use; none yet without one.</param>
    /// <param name="Strips">Read against that profile, oldest first.</param>
    /// <param name="Last">What the newest says.</param>
    /// <param name="Events">What happened since the first strip.</param>
    /// <param name="Held">Runs that wait for a decision.</param>
    /// <param name="Tolerances">The room's sets of limits, the strictest first.</param>
    /// <param name="Decisions">About the profile.</param>
    /// <param name="Reference">The reading that strips are held against; none where there is none.</param>
    public sealed record Page(
        PrintingCondition Condition, Paper Paper, Printer Printer, Profile? Profile, IReadOnlyList<WatchedStrip> Strips, StripVerdict? Last,
        IReadOnlyList<Event> Events, IReadOnlyList<int> Held, IReadOnlyList<Tolerance> Tolerances, IReadOnlyList<Decision> Decisions, int? Reference)
    {
        public Tolerance Tolerance => Tolerances.Single(t => t.Name == Condition.Tolerance);
    }

    public sealed record Event(DateTimeOffset At, string What);
}
