using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Money;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Papers;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Papers;

/// <summary>The fewest papers that could have taken the past year's work, within a colour loss and a finish that the keeper states.</summary>
public sealed class ProposeLineUp(RoomStore room, FileShelf files, TimeProvider clock)
{
    private const int Days = 365;
    private const long APaper = 1_000_000; // one paper fewer goes before all else; then the papers that were printed most stay

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.MostLoss is not (>= 0 and <= 20) || !Enum.IsDefined(request.Finish))
        {
            return new NoSuchLimit(request.MostLoss);
        }

        await using var db = room.Open();
        var papers = await db.Papers.AsNoTracking().OrderBy(p => p.Code).ToListAsync(cancel);
        var since = clock.GetUtcNow().AddDays(-Days);
        var prints = await (
            from line in db.PrintLines
            join order in db.Orders on line.Order equals order.Number
            where order.TakenAt >= since
            group line by line.Paper into ofPaper
            select new { Paper = ofPaper.Key, Prints = ofPaper.Sum(l => l.Copies) }).ToDictionaryAsync(x => x.Paper, x => x.Prints, cancel);
        var charts = await PaperCharts.OfAsync(db, files, null, cancel);
        var figures = papers.ToDictionary(p => p.Code, p => AssessPaper.Main(charts[p.Code].Select(c => (c, c.Known!)))?.Figures);
        var candidates = papers.Where(p => p.LineUp is not LineUp.Gone).Take(SmallestLineUp.MostPapers).ToList();
        var works = papers.Where(p => prints.GetValueOrDefault(p.Code) > 0).ToList();
        var all = works.Sum(w => prints[w.Code]);
        var losses = candidates.Select(c => works.Select(w => LossOf(w, c, figures, request)).ToArray()).ToArray();
        var possible = works.Select((_, w) => losses.Any(l => l[w] is not null)).ToArray();
        bool[][] takes = [.. losses.Select(l => l.Select((loss, w) => possible[w] && loss is not null).Where((_, w) => possible[w]).ToArray())];
        long[] cost = [.. candidates.Select(c => APaper - (1_000L * prints.GetValueOrDefault(c.Code) / Math.Max(1, all)))];
        var chosen = SmallestLineUp.Find(takes, cost)!;

        var profiles = await (
            from profile in db.Profiles
            join condition in db.Conditions on profile.Condition equals condition.Code
            where profile.Standing != Standing.Retired
            group profile by condition.Paper into ofPaper
            select new { Paper = ofPaper.Key, Count = ofPaper.Count() }).ToDictionaryAsync(x => x.Paper, x => x.Count, cancel);
        var lots = (await ShelfLines.Left(db).ToListAsync(cancel)).GroupBy(l => l.Paper).ToDictionary(g => g.Key, g => g.Count());
        var books = await db.OfYearAsync(clock, cancel);
        double? Alone(int c) => figures[candidates[c].Code]?.Reach is { } reach
            ? reach.BeyondAll([.. candidates.Where((_, k) => k != c).Select(k => figures[k.Code]?.Reach).OfType<Colour.Gamut.GamutReach>()]) : null;
        Line Of(int c) => new(
            candidates[c], prints.GetValueOrDefault(candidates[c].Code), figures[candidates[c].Code] is { Reach: not null },
            profiles.GetValueOrDefault(candidates[c].Code), lots.GetValueOrDefault(candidates[c].Code), Instead(c),
            books[candidates[c].Code], Alone(c), candidates.Any(k => k.Code != candidates[c].Code && k.Class == candidates[c].Class));
        Instead? Instead(int c)
        {
            var work = works.FindIndex(w => w.Code == candidates[c].Code);
            return work < 0 ? null : chosen.Where(k => losses[k][work] is not null).OrderBy(k => losses[k][work]!.Value.Mean)
                .Select(k => new Instead(candidates[k], losses[k][work]!.Value.Mean, losses[k][work]!.Value.Largest)).FirstOrDefault();
        }

        return new Done(
            all, [.. chosen.Select(Of)], [.. Enumerable.Range(0, candidates.Count).Except(chosen).Select(Of)],
            [.. works.Where((_, w) => !possible[w])], (await OrderCost.RatesAsync(db, clock.Today(), cancel))?.Currency ?? "");
    }

    // What a work printed on one paper would lose on another; none where the finish or the loss forbids it, or nobody knows.
    private static (double Mean, double Largest)? LossOf(Paper work, Paper on, Dictionary<PaperCode, PaperFigures?> figures, Request request)
    {
        if (work.Code == on.Code)
        {
            return (0, 0);
        }

        var alike = request.Finish switch { Finish.SameClass => work.Class == on.Class, Finish.SameCoat => work.Coat == on.Coat, _ => true };
        if (!alike || figures[work.Code]?.Reach is not { } had || figures[on.Code]?.Reach is not { } has)
        {
            return null;
        }

        var (mean, largest, _) = had.LostOn(has);
        return mean.Value <= request.MostLoss ? (mean.Value, largest.Value) : null;
    }

    /// <param name="MostLoss">The mean dE00 that the strongest colours of a paper may lose on the one that takes its work over.</param>
    /// <param name="Finish">How alike the finish must stay.</param>
    public sealed record Request(double MostLoss = 1.5, Finish Finish = Finish.SameCoat);

    /// <param name="Prints">Ordered in the past year.</param>
    /// <param name="Kept">The fewest papers that take it all.</param>
    /// <param name="LeftOut">The rest, each with what leaving it out costs.</param>
    /// <param name="Untaken">Papers that had work which no present paper may take: they are gone.</param>
    /// <param name="Currency">Of the room's rates; empty when it has none.</param>
    public sealed record Done(int Prints, IReadOnlyList<Line> Kept, IReadOnlyList<Line> LeftOut, IReadOnlyList<Paper> Untaken, string Currency);

    /// <param name="Paper">Which.</param>
    /// <param name="Prints">Ordered on it in the past year.</param>
    /// <param name="Measured">Whether a chart of it is known; without one it can stand in for no other, and no other for it.</param>
    /// <param name="Profiles">How many profiles it needs looked after.</param>
    /// <param name="Lots">How many lots of it lie on the shelf.</param>
    /// <param name="Instead">What takes its work in this line-up; none where it had none.</param>
    /// <param name="Year">Its past year in the books.</param>
    /// <param name="Alone">The part of its gamut that no other paper of the room holds, 0 to 1; none where it was not measured.</param>
    /// <param name="FinishElsewhere">Whether another paper of the room is of its class.</param>
    public sealed record Line(
        Paper Paper, int Prints, bool Measured, int Profiles, int Lots, Instead? Instead, PaperYear Year, double? Alone, bool FinishElsewhere);

    /// <param name="Paper">Which.</param>
    /// <param name="MeanLoss">In dE00, over the strongest colours.</param>
    /// <param name="LargestLoss">The largest of these.</param>
    public sealed record Instead(Paper Paper, double MeanLoss, double LargestLoss);

    public sealed record NoSuchLimit(double MostLoss) : Refusal($"A colour loss of {MostLoss:0.##} dE00 cannot be: 0 to 20.");
}

/// <summary>How alike the finish must stay when a paper takes over another's work.</summary>
public enum Finish
{
    SameClass = 1,
    SameCoat = 2,
    Any = 3,
}
