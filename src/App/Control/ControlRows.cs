using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;

namespace Goodsheet.App.Control;

/// <summary>What several use cases of control ask of the records.</summary>
internal static class ControlRows
{
    /// <summary>When a person trusted a profile: what the chart saw before no longer pulls.</summary>
    public static async Task<IReadOnlyCollection<DateTimeOffset>> TrustedAgainAsync(this RoomDb db, int profile, CancellationToken cancel) =>
        await db.Decisions.Where(d => d.About == $"profile {profile}" && d.What == "trusted").Select(d => d.At).ToListAsync(cancel);
}
