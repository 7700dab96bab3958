using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Papers;

/// <summary>The paper page: what a paper measured, what it is good for, where it stands.</summary>
public sealed class ShowPaper(RoomStore room, TimeProvider clock)
{
    public async Task<Page?> RunAsync(PaperCode code, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var paper = await db.Papers.AsNoTracking().SingleOrDefaultAsync(p => p.Code == code, cancel);
        if (paper is null)
        {
            return null;
        }

        var conditions = await db.Conditions.AsNoTracking().Where(c => c.Paper == code).ToListAsync(cancel);
        var codes = conditions.Select(c => c.Code).ToList();
        var profiles = await db.Profiles.AsNoTracking().Where(p => codes.Contains(p.Condition))
            .OrderByDescending(p => p.Number).ToListAsync(cancel);
        return new(
            clock.Today(),
            paper,
            await db.ClassRules.AsNoTracking().SingleAsync(r => r.Class == paper.Class, cancel),
            conditions,
            profiles,
            await db.Readings.AsNoTracking().Where(r => r.Paper == code).OrderByDescending(r => r.Number).ToListAsync(cancel),
            await ShelfLines.Left(db).Where(l => l.Paper == code).ToListAsync(cancel),
            await db.Printers.AsNoTracking().Where(p => !p.Gone).ToListAsync(cancel));
    }

    public sealed record Page(
        DateOnly Today, Paper Paper, ClassRule Rule, IReadOnlyList<PrintingCondition> Conditions,
        IReadOnlyList<Profile> Profiles, IReadOnlyList<Reading> Readings, IReadOnlyList<ShelfLines.Line> Lots,
        IReadOnlyList<Printer> Printers);
}
