using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Control;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Control;

/// <summary>Which profiles want the keeper's eye now, the riskiest first.</summary>
public static class StripsDue
{
    private const int HalfAYear = 182; // days

    internal static async Task<IReadOnlyList<Line>> ChecksAsync(this RoomDb db, DateTimeOffset now, CancellationToken cancel)
    {
        var profiles = await db.Profiles.AsNoTracking().Where(p => p.Standing != Standing.Retired).OrderBy(p => p.Number).ToListAsync(cancel);
        var strips = (await db.StripReadings.AsNoTracking().ToListAsync(cancel)).ToLookup(s => s.Profile);
        var changes = (await db.Fingerprints.AsNoTracking().Where(f => f.Changed != null).ToListAsync(cancel)).ToLookup(f => f.Condition);
        var events = await db.PrinterEvents.AsNoTracking().ToListAsync(cancel);
        var printers = await db.Conditions.AsNoTracking().ToDictionaryAsync(c => c.Code, c => c.Printer, cancel);
        var printed = (await (
            from run in db.Runs.AsNoTracking()
            join print in db.RunPrints on run.Number equals print.Run
            where run.BeganAt != null && print.Good > 0
            select new { run.Profile, run.BeganAt, print.Good }).ToListAsync(cancel)).ToLookup(r => r.Profile);
        var found = new List<Line>();
        foreach (var profile in profiles)
        {
            if (profile.Standing is Standing.New or Standing.Drifting)
            {
                found.Add(new(profile, double.PositiveInfinity, profile.StandingWhy, IsDue: false));
                continue;
            }

            var since = profile.CheckedAt ?? profile.MadeAt;
            var watched = StripHistory.Of(strips[profile.Number], await db.TrustedAgainAsync(profile.Number, cancel));
            var due = StripDue.Of(
                (int)(now - since).TotalDays, printed[profile.Number].Where(r => r.BeganAt > since).Sum(r => r.Good),
                watched.Count(w => w.Moved && w.Strip.At > now.AddDays(-HalfAYear)),
                changes[profile.Condition].Select(f => (f.At, What: f.Changed!))
                    .Concat(events.Where(e => e.Printer == printers[profile.Condition] && PrinterEvent.AsksForStrip(e.Kind)).Select(e => (e.At, What: e.InWords)))
                    .Where(c => c.At > since).OrderBy(c => c.At).LastOrDefault().What);
            if (due.IsDue || profile.Standing is Standing.Due)
            {
                found.Add(new(profile, due.Risk, due.Why, IsDue: true));
            }
        }

        return [.. found.OrderByDescending(f => f.Risk).ThenBy(f => f.Profile.Number)];
    }

    /// <param name="Profile">Whose strip is due, or who waits for a decision.</param>
    /// <param name="Risk">The more, the sooner.</param>
    /// <param name="Why">In words.</param>
    /// <param name="IsDue">A strip is due; otherwise its standing says what.</param>
    public sealed record Line(Profile Profile, double Risk, string Why, bool IsDue);
}
