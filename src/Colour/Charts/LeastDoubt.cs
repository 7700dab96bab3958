using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Charts;

/// <summary>Picks the RGB patches of a small chart one after another, each the one that leaves the printer model least in doubt
/// over all colours.</summary>
/// <remarks>
/// With few patches, as far apart as can be means on the surface, and the inside is left to guessing. The doubt is the variance of
/// the model that is to be learnt, before a patch is read: it depends on where patches lie, not on what they print. So
/// D. A. Cohn, Z. Ghahramani, M. I. Jordan, J. Artif. Intell. Res. 4, 129 (1996): least expected variance. With a
/// hundred patches it gains nothing over distances: docs/decisions/0401.
/// </remarks>
internal sealed class LeastDoubt
{
    // Colours that doubt is summed over, some of them on the surface as those of charts are.
    private const int Asked = 3_000;
    private const double OnSurface = 0.08;
    private const int Seed = 20261126;

    // The trend is not known beforehand: its terms have a spread of twice that of the paper's colours.
    private const double TrendVariance = 4;

    private readonly double[][] candidates;
    private readonly RgbForm form = new();
    private readonly Covariance covariance;
    private readonly double[][] trends;
    private readonly double[][] shared;  // a row for each colour asked for: what it has in common with each candidate
    private readonly double[] doubt;     // of each candidate
    private readonly List<double[]> told = [];
    private readonly bool[] taken;

    /// <param name="candidates">RGB, each 0 to 1, that may be picked.</param>
    public LeastDoubt(double[][] candidates)
    {
        this.candidates = candidates;
        var random = new Random(Seed);
        double[][] asked = [.. Enumerable.Range(0, Asked).Select(_ => Enumerable.Range(0, 3)
            .Select(_ => random.NextDouble() < OnSurface ? random.Next(2) : random.NextDouble()).ToArray())];
        double[][] all = [.. candidates, .. asked];
        var none = new int[all.Length];
        covariance = new(form, new(all, new Colorimetry.Lab[all.Length], none, none, none));
        trends = [.. all.Select(d =>
        {
            var terms = new double[form.TrendSize(true)];
            form.Trend(d, terms);
            return terms;
        })];
        shared = [.. Enumerable.Range(candidates.Length, Asked).AsParallel().AsOrdered().Select(a => Row(all[a], a, candidates.Length))];
        doubt = [.. candidates.Select((d, i) => covariance.Prior(d, false) + (TrendVariance * Dot(trends[i], trends[i])))];
        taken = new bool[candidates.Length];
    }

    /// <summary>The next, and takes it into account.</summary>
    public double[] Next()
    {
        var gains = new double[candidates.Length];
        foreach (var row in shared)
        {
            for (var i = 0; i < gains.Length; i++)
            {
                gains[i] += row[i] * row[i];
            }
        }

        var best = -1;
        for (var i = 0; i < gains.Length; i++)
        {
            gains[i] /= doubt[i] + form.Noise;
            best = !taken[i] && (best < 0 || gains[i] > gains[best]) ? i : best;
        }

        Take(best);
        return candidates[best];
    }

    /// <summary>Takes a candidate into account that is chosen already.</summary>
    public void Note(double[] device)
    {
        if (Array.FindIndex(candidates, c => c.AsSpan().SequenceEqual(device)) is >= 0 and var at)
        {
            Take(at);
        }
    }

    // What reading a candidate tells of all others is taken from what they have in common and from their doubt.
    private void Take(int at)
    {
        taken[at] = true;
        var tells = Row(candidates[at], at, trends.Length);
        foreach (var before in told)
        {
            for (var (i, share) = (0, before[at]); i < tells.Length; i++)
            {
                tells[i] -= share * before[i];
            }
        }

        var scale = 1 / Math.Sqrt(Math.Max(0, tells[at]) + form.Noise);
        for (var i = 0; i < tells.Length; i++)
        {
            tells[i] *= scale;
        }

        told.Add(tells);
        Parallel.For(0, Asked, a =>
        {
            var (row, here) = (shared[a], tells[candidates.Length + a]);
            for (var i = 0; i < row.Length; i++)
            {
                row[i] -= here * tells[i];
            }
        });
        for (var i = 0; i < doubt.Length; i++)
        {
            doubt[i] = Math.Max(0, doubt[i] - (tells[i] * tells[i]));
        }
    }

    private double[] Row(double[] device, int at, int count)
    {
        var row = new double[covariance.Padded];
        covariance.Row(device, -1, 0, row, count);
        for (var i = 0; i < count; i++)
        {
            row[i] += TrendVariance * Dot(trends[at], trends[i]);
        }

        return row[..count];
    }

    private static double Dot(double[] one, double[] other)
    {
        var sum = 0.0;
        for (var i = 0; i < one.Length; i++)
        {
            sum += one[i] * other[i];
        }

        return sum;
    }
}
