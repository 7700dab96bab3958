using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Control;

namespace Goodsheet.App.Control;

/// <summary>The room's sets of limits, the strictest first, with how many printing conditions are held to each.</summary>
public sealed class ShowTolerances(RoomStore room)
{
    public async Task<IReadOnlyList<Line>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var used = await db.Conditions.AsNoTracking().Select(c => c.Tolerance).ToListAsync(cancel);
        return [.. (await db.Tolerances.AsNoTracking().OrderBy(t => t.Mean).ToListAsync(cancel)).Select(t => new Line(t, used.Count(u => u == t.Name)))];
    }

    public sealed record Line(Tolerance Tolerance, int Conditions);
}
