using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Papers;

/// <summary>The line-up: the room's papers by class, each with its profiles and what is left of it.</summary>
public sealed class ShowPapers(RoomStore room)
{
    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var papers = await db.Papers.AsNoTracking().ToListAsync(cancel);
        var rules = await db.ClassRules.AsNoTracking().ToListAsync(cancel);
        var profiles = await (
            from profile in db.Profiles
            join condition in db.Conditions on profile.Condition equals condition.Code
            select new { condition.Paper, condition.Printer, profile.Standing }).ToListAsync(cancel);
        var left = (await ShelfLines.Left(db).ToListAsync(cancel)).ToLookup(l => l.Paper);
        return new(rules, [.. papers.OrderBy(p => p.Class).ThenBy(p => p.Name).Select(p => new Line(
            p,
            [.. profiles.Where(x => x.Paper == p.Code && x.Standing is not Standing.Retired).Select(x => (x.Printer, x.Standing))],
            left[p.Code].Count()))]);
    }

    public sealed record Page(IReadOnlyList<ClassRule> Rules, IReadOnlyList<Line> Papers);

    public sealed record Line(Paper Paper, IReadOnlyList<(PrinterCode Printer, Standing Standing)> Profiles, int Lots)
    {
        /// <summary>It has a profile that a file can be made with.</summary>
        public bool CanBePrinted => Profiles.Any(p => p.Standing is Standing.Trusted or Standing.Due or Standing.Drifting);
    }
}
