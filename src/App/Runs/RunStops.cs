using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Runs;

/// <summary>What stands in the way of a planned run, and that nobody decided to print all the same.</summary>
internal static class RunStops
{
    public static async Task<IReadOnlyList<RunStop>> OpenAsync(RoomDb db, Run run, CancellationToken cancel)
    {
        if (run.State is not RunState.Planned)
        {
            return [];
        }

        var about = About(run.Number);
        var decided = await db.Decisions.AsNoTracking().Where(d => d.About == about).Select(d => d.What).ToListAsync(cancel);
        return [.. RunRules.Stops(await FactsAsync(db, run, cancel)).Where(s => !decided.Contains(s.Decided))];
    }

    /// <summary>Other planned runs of the same printing condition that the same change of it stops, and that nobody decided about.</summary>
    public static async Task<IReadOnlyList<(int Run, RunStop Stop)>> AlikeAsync(RoomDb db, Run run, IReadOnlyList<RunStop> open, CancellationToken cancel)
    {
        var shared = open.Where(s => s.OfCondition).Select(s => s.Decided).ToHashSet();
        var alike = new List<(int, RunStop)>();
        if (shared.Count > 0)
        {
            foreach (var other in await db.Runs.AsNoTracking().Where(r => r.State == RunState.Planned && r.Condition == run.Condition && r.Number != run.Number).OrderBy(r => r.Number).ToListAsync(cancel))
            {
                alike.AddRange((await OpenAsync(db, other, cancel)).Where(s => shared.Contains(s.Decided)).Select(s => (other.Number, s)));
            }
        }

        return alike;
    }

    public static string About(int run) => $"run {run}";

    private static async Task<RunFacts> FactsAsync(RoomDb db, Run run, CancellationToken cancel)
    {
        var profile = await db.Profiles.AsNoTracking().SingleAsync(p => p.Number == run.Profile, cancel);
        var prints = await db.Fingerprints.AsNoTracking().Where(f => f.Condition == run.Condition).OrderBy(f => f.Number).ToListAsync(cancel);
        var lines = await (
            from print in db.RunPrints.AsNoTracking()
            join line in db.PrintLines.AsNoTracking() on new { print.Order, print.Line } equals new { line.Order, line.Line }
            where print.Run == run.Number
            orderby print.Order, print.Line
            select line).ToListAsync(cancel);
        var last = await TestStripsOf.LastAsync(db, lines, cancel);
        var prepared = lines.FindAll(l => l.PreparedHash is not null);
        var confirmed = profile.CheckedAt ?? profile.MadeAt;
        return new(
            run,
            await db.Papers.AsNoTracking().SingleAsync(p => p.Code == run.Paper, cancel),
            await db.Formats.AsNoTracking().Where(f => f.Code == run.Format).Select(f => f.IsRoll).SingleAsync(cancel),
            await db.Printers.AsNoTracking().SingleAsync(p => p.Code == run.Printer, cancel),
            profile,
            prints.LastOrDefault(f => f.At <= confirmed) ?? prints.FirstOrDefault(),
            prints.LastOrDefault(),
            await FilesAsync(db, prepared, cancel),
            [.. prepared.Select(l => last.GetValueOrDefault((l.Order, l.Line)) is { } s && s.Recipe == l.Recipe ? s : null).OfType<TestStrip>()],
            [.. lines.Select(l => AwaitedStrip.Of(l, last.GetValueOrDefault((l.Order, l.Line))))]);
    }

    private static async Task<IReadOnlyList<RunFile>> FilesAsync(RoomDb db, List<PrintLine> lines, CancellationToken cancel)
    {
        var numbers = lines.Select(RecipeText.ProfileOf).OfType<int>().Distinct().ToList();
        var profiles = await db.Profiles.AsNoTracking().Where(p => numbers.Contains(p.Number)).ToDictionaryAsync(p => p.Number, cancel);
        return [.. lines.Select(l => new RunFile(l.Title, RecipeText.ProfileOf(l) is { } n ? profiles.GetValueOrDefault(n) : null))];
    }
}
