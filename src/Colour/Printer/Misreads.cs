using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>A patch that all the others contradict.</summary>
/// <param name="Chart">Which chart, 0 up.</param>
/// <param name="Patch">One of its patches as averaged.</param>
/// <param name="Expected">What the others foretell.</param>
/// <param name="Away">How far it lies from that.</param>
/// <param name="Score">The same in units of the chart's own scatter; reported from <see cref="Misreads.Threshold"/>, where it is worth it.</param>
public sealed record Misread(int Chart, AveragedPatch Patch, Lab Expected, DeltaE00 Away, double Score);

/// <summary>Finds patches that were read or printed wrong: a scratch, a speck, a slipped ruler.</summary>
/// <remarks>
/// Each residual of leaving one out is divided by what the model expects of it, then by 1.4826 times the median of the
/// chart. Since a wrong patch also pulls at its neighbours, the worst are taken out and the rest is looked at again; in
/// the end each patch that was taken out must stand the test against the model of those that were not.
/// </remarks>
public static class Misreads
{
    /// <summary>Scores from here on are reported: the length of the scaled L*, a*, b*.</summary>
    public const double Threshold = 8;

    /// <summary>In dE00: a patch that is off by less is not worth reading again, however quiet the rest of the chart.</summary>
    public const double LeastAway = 1;

    private const int MostRounds = 6;

    /// <summary>Looks for patches that do not fit.</summary>
    /// <param name="charts">One or more charts of one condition.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The worst first.</returns>
    /// <exception cref="ArgumentException">As <see cref="PrinterModels.Fit"/>.</exception>
    public static IReadOnlyList<Misread> Find(IReadOnlyList<MeasurementSet> charts, CancellationToken cancel = default)
    {
        var data = PrinterModels.DataOf(charts);
        var form = PrinterModels.FormOf(charts[0].Channels);
        var suspects = new HashSet<int>();
        for (var round = 1; ; round++)
        {
            int[] kept = [.. Enumerable.Range(0, data.Length).Where(i => !suspects.Contains(i))];
            var process = GaussianProcess.Fit(form, data.Only(kept), null, cancel);
            var scaled = process.ScaledResiduals(cancel);
            var scatter = Scatter(scaled);
            var scores = scaled.Select(r => Score(r, scatter)).ToArray();
            var worst = scores.Max();
            if (worst < Threshold || round == MostRounds || suspects.Count > data.Length / 10)
            {
                return Judge(charts, data, suspects, process, scatter);
            }

            // Those far below the worst may only be its neighbours.
            suspects.UnionWith(kept.Where((_, i) => scores[i] >= Math.Max(Threshold, worst / 2)));
        }
    }

    private static Misread[] Judge(
        IReadOnlyList<MeasurementSet> charts, TrainingData data, HashSet<int> suspects, GaussianProcess process, Lab scatter)
    {
        var patches = charts.SelectMany(c => c.Averaged()).ToArray();
        return
        [
            .. suspects.Select(i =>
            {
                var lab = new double[3];
                process.Predict(data.Device[i], lab);
                Lab expected = new(lab[0], lab[1], lab[2]);
                var sd = process.ReadingDeviation(data.Device[i], data.Lab[i], data.Count[i]);
                Lab scaled = new((data.Lab[i].L - lab[0]) / sd.L, (data.Lab[i].A - lab[1]) / sd.A, (data.Lab[i].B - lab[2]) / sd.B);
                return new Misread(data.Chart[i], patches[i], expected, CieDe2000.Between(data.Lab[i], expected), Score(scaled, scatter));
            }).Where(m => m.Score >= Threshold && m.Away.Value >= LeastAway).OrderByDescending(m => m.Score),
        ];
    }

    private static double Score(Lab r, Lab scatter)
    {
        var (l, a, b) = (r.L / scatter.L, r.A / scatter.A, r.B / scatter.B);
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }

    private static Lab Scatter(Lab[] scaled) => new(Spread(scaled, r => r.L), Spread(scaled, r => r.A), Spread(scaled, r => r.B));

    private static double Spread(Lab[] scaled, Func<Lab, double> axis)
    {
        double[] sizes = [.. scaled.Select(r => Math.Abs(axis(r))).Order()];
        return Math.Max(1e-9, 1.4826 * sizes[sizes.Length / 2]);
    }
}
