using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Control;

/// <summary>What several use cases of control ask of the records.</summary>
internal static class ControlRows
{
    private const int FewestOfAChart = 50; // fewer are a strip or a trial, and cannot be corrected into a profile

    /// <summary>When a person trusted a profile: what the chart saw before no longer pulls.</summary>
    public static async Task<IReadOnlyCollection<DateTimeOffset>> TrustedAgainAsync(this RoomDb db, int profile, CancellationToken cancel) =>
        await db.Decisions.Where(d => d.About == $"profile {profile}" && d.What == "trusted").Select(d => d.At).ToListAsync(cancel);

    /// <summary>The reading that strips of a profile are held against: the chart it was made from; for one that was brought in,
    /// the first whole chart that was read of its printing condition. None where there is neither.</summary>
    public static async Task<Reading?> ReferenceAsync(this RoomDb db, Profile profile, CancellationToken cancel) =>
        profile.MadeFrom is { } made ? await db.Readings.AsNoTracking().SingleOrDefaultAsync(r => r.Number == made, cancel)
            : await db.Readings.AsNoTracking()
                .Where(r => r.Condition == profile.Condition && !r.OverBlack && r.HoursAfter == null && r.Patches >= FewestOfAChart)
                .OrderBy(r => r.Number).FirstOrDefaultAsync(cancel);
}
