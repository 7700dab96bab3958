using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Papers;

/// <summary>The paper page: what a paper measured, what it is good for, where it stands.</summary>
public sealed class ShowPaper(RoomStore room, FileShelf files, TimeProvider clock)
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
            await db.Printers.AsNoTracking().Where(p => !p.Gone).ToListAsync(cancel),
            [.. (await PaperCharts.OfAsync(db, files, [code], cancel))[code]],
            [.. (await db.BenchTests.AsNoTracking().Where(t => t.Paper == code).ToListAsync(cancel)).OrderBy(t => t.Kind).ThenByDescending(t => t.At)]);
    }

    /// <summary>A bench test's photograph: where it is, and what kind of file.</summary>
    public async Task<(string Path, string Type)?> PhotoAsync(Guid test, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var hash = (await db.BenchTests.AsNoTracking().SingleOrDefaultAsync(t => t.Id == test, cancel))?.Photo;
        return hash is not null && files.Has(hash) && await NoteBenchTest.TypeOfAsync(files.PathOf(hash), cancel) is { } type ? (files.PathOf(hash), type) : null;
    }

    /// <param name="Charts">What was read of it, the newest first, for <see cref="AssessPaper"/>.</param>
    /// <param name="Bench">By kind, the newest of each first.</param>
    public sealed record Page(
        DateOnly Today, Paper Paper, ClassRule Rule, IReadOnlyList<PrintingCondition> Conditions,
        IReadOnlyList<Profile> Profiles, IReadOnlyList<Reading> Readings, IReadOnlyList<ShelfLines.Line> Lots,
        IReadOnlyList<Printer> Printers, IReadOnlyList<AssessPaper.Chart> Charts, IReadOnlyList<BenchTest> Bench);
}
