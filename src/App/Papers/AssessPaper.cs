using System.Collections.Immutable;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Room;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Papers;

/// <summary>Says what a paper is, from the charts printed on it: on the paper page, and from files alone.</summary>
public sealed class AssessPaper
{
    /// <summary>What a reading repeats to, where nothing better is known: the same chart twice on a real gloss.</summary>
    public const double HouseNoise = 0.18;

#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var charts = new List<(Chart Chart, PaperFigures Figures)>();
        foreach (var chart in request.Charts)
        {
            if (chart.Known is { } known)
            {
                charts.Add((chart, known));
                continue;
            }

            var read = await ChartReading.ReadAsync(chart.Path, cancel);
            if (!read.Granted)
            {
                return read.Refusal;
            }

            var set = read.Value.Set!;
            charts.Add((chart, await Task.Run(() => PaperFigures.Of(set, cancel), cancel)));
        }

        var usual = charts.Where(c => !c.Chart.OverBlack).ToList();
        if (usual.Count == 0 || usual.TrueForAll(c => c.Figures.White is null))
        {
            return new NoBarePaper();
        }

        var main = Main(usual)!.Value;
        var alike = usual.Where(c => c.Chart.Earlier == main.Chart.Earlier || c.Chart.Lot == main.Chart.Lot).ToList();
        var conditions = alike.Where(c => c.Figures.White is not null).GroupBy(c => c.Figures.Condition).Select(g => g.First().Figures).OrderBy(f => f.Condition).ToList();
        var withoutUv = conditions.Find(f => f.Condition is MCondition.M2);
        if (request.WantsBrightener && (withoutUv is null || main.Figures.BrightenerAgainst(withoutUv) is null))
        {
            return new NotWithAndWithout();
        }

        var verdict = PaperVerdict.Of(main.Figures, withoutUv);
        var earlier = usual.Where(c => c.Chart.Earlier > main.Chart.Earlier && c.Figures.Condition == main.Figures.Condition && c.Chart.Condition == main.Chart.Condition)
            .OrderBy(c => c.Figures.Volume is null).ThenBy(c => c.Chart.Earlier).FirstOrDefault();
        var timed = usual.Where(c => c.Chart.HoursAfter is not null && c.Figures.Condition == main.Figures.Condition && c.Chart.Lot == main.Chart.Lot).ToList();
        return new Done(
            main.Chart, main.Figures, verdict, [.. conditions], Opacity(charts, main.Figures), await DryingAsync(timed, cancel),
            request.Rule is { } rule ? PaperFinding.Of(main.Figures, rule, earlier.Figures, earlier.Chart is { Lot.Length: > 0 } e && e.Lot != main.Chart.Lot) : [],
            await LotsAsync(main.Chart, earlier.Chart, cancel));
    }
#pragma warning restore CA1822

    /// <summary>The chart that speaks for the paper: with ultraviolet before without, a whole chart before a small one, then the newest.</summary>
    internal static (Chart Chart, PaperFigures Figures)? Main(IEnumerable<(Chart Chart, PaperFigures Figures)> charts) =>
        charts.Where(c => c.Figures.White is not null && !c.Chart.OverBlack).OrderBy(c => c.Figures.Condition is MCondition.M2 or MCondition.M3)
            .ThenBy(c => c.Figures.Volume is null).ThenBy(c => c.Chart.Earlier).Select(c => ((Chart Chart, PaperFigures Figures)?)c).FirstOrDefault();

    // Luminance of the bare paper over black against over white: as it is read here, not the standard's endless pad.
    private static double? Opacity(List<(Chart Chart, PaperFigures Figures)> charts, PaperFigures main)
    {
        var over = charts.FirstOrDefault(c => c.Chart.OverBlack && c.Figures.White is not null).Figures;
        return over?.White is { } black && main.White is { } white ? Math.Min(1, Luminance(black) / Luminance(white)) : null;
    }

    private static double Luminance(Colour.Colorimetry.Lab lab) => lab.ToXyz(Colour.Colorimetry.Xyz.D50).Y;

    private static async Task<Drying?> DryingAsync(List<(Chart Chart, PaperFigures Figures)> timed, CancellationToken cancel)
    {
        if (timed.Count < 2)
        {
            return null;
        }

        var read = new List<(double Hours, MeasurementSet Set)>();
        foreach (var (chart, _) in timed.OrderBy(t => t.Chart.HoursAfter))
        {
            if (await ChartReading.ReadAsync(chart.Path, cancel) is { Granted: true } file)
            {
                read.Add((chart.HoursAfter!.Value, file.Value.Set!));
            }
        }

        if (read.Count < 2)
        {
            return null;
        }

        (double Hours, DeltaE00 Moved)[] moved = [.. read.Select((r, i) => (r.Hours, i == 0 ? new(0) : Repeatability.Between(read[0].Set, r.Set)?.Mean ?? new(0)))];
        var curve = DryDown.Fit(moved);
        return new([.. moved], curve, curve?.SettledAfter(new(HouseNoise)));
    }

    private static async Task<LotChange?> LotsAsync(Chart now, Chart? earlier, CancellationToken cancel)
    {
        if (earlier is null || earlier.Lot.Length == 0 || now.Lot.Length == 0 || earlier.Lot == now.Lot
            || await ChartReading.ReadAsync(earlier.Path, cancel) is not { Granted: true } was || await ChartReading.ReadAsync(now.Path, cancel) is not { Granted: true } read)
        {
            return null;
        }

        return LotChange.Between(was.Value.Set!, read.Value.Set!);
    }

    /// <param name="Charts">Of one paper; the order does not matter.</param>
    /// <param name="Rule">Of its class, for what looks wrong; none to leave that out.</param>
    /// <param name="WantsBrightener">Whether to say no when it cannot be told.</param>
    public sealed record Request(IReadOnlyList<Chart> Charts, ClassRule? Rule = null, bool WantsBrightener = false);

    /// <summary>A chart of the paper.</summary>
    /// <param name="Path">The file.</param>
    /// <param name="Known">Its figures, where they were kept: then the file is not read again.</param>
    /// <param name="Name">As it is called on the page.</param>
    /// <param name="Condition">The printing condition, where the room knows it.</param>
    /// <param name="Lot">The lot it was printed on.</param>
    /// <param name="Earlier">How many came after it: 0 for the newest.</param>
    /// <param name="HoursAfter">Hours between print and reading, where it was timed.</param>
    /// <param name="OverBlack">Whether black lay under it.</param>
    public sealed record Chart(
        string Path, PaperFigures? Known = null, string Name = "", string Condition = "", string Lot = "", int Earlier = 0, double? HoursAfter = null, bool OverBlack = false);

    /// <param name="Readings">Hours after printing, and how far the colour had moved since the first.</param>
    /// <param name="Curve">Through three readings or more.</param>
    /// <param name="MeasureAfter">Hours from which no more than the noise is to come.</param>
    public sealed record Drying(ImmutableArray<(double Hours, DeltaE00 Moved)> Readings, DryDown? Curve, double? MeasureAfter);

    /// <param name="Chart">The chart the figures are of.</param>
    /// <param name="Figures">Its figures.</param>
    /// <param name="Verdict">What they mean.</param>
    /// <param name="Conditions">The same paper in every M-condition it was read in.</param>
    /// <param name="Opacity">0 to 1, where it was read over black, too.</param>
    /// <param name="Drying">Where timed readings were taken.</param>
    /// <param name="Findings">What looks wrong.</param>
    /// <param name="Lots">What changed since another lot.</param>
    public sealed record Done(
        Chart Chart, PaperFigures Figures, PaperVerdict Verdict, ImmutableArray<PaperFigures> Conditions, double? Opacity, Drying? Drying,
        IReadOnlyList<PaperFinding> Findings, LotChange? Lots);

    public sealed record NoBarePaper() : Refusal("The chart has no patch of bare paper, so its white cannot be told.");

    public sealed record NotWithAndWithout() : Refusal(
        "A brightener shows between a reading with ultraviolet (M0 or M1) and one without (M2); these two files are not such a pair.");
}
