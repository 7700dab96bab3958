using System.Collections.Immutable;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Control;

/// <summary>A strip beside the reference readings of the same patches, ready to be explained by a drift.</summary>
public sealed class StripFit
{
    private const double Far = 3.4; // of a patch's noise: beyond it a patch counts ever less (Huber)
    private const double SmallStep = 0.005;
    private const double Full = 0.97; // of coverage: no curve gives more

    // Noise of the difference of two readings of one patch, per axis (dE*ab); scaled by what the fit leaves.
    private static readonly double[] Noise = [0.2, 0.22, 0.25];

    // How far each number usually goes, by which it is measured: the ridge that keeps what a strip cannot tell at 0.
    private static readonly double[] Usual = [0.05, 0.05, 0.05, 0.05, 0.04, 0.04, 0.04, 0.04, 0.03, 0.02];

    private readonly DriftForm form;
    private readonly (Spectrum Reference, ImmutableArray<double> Coverage, Lab Now)[] patches;

    private StripFit(DriftForm form, (Spectrum, ImmutableArray<double>, Lab)[] patches) => (this.form, this.patches) = (form, patches);

    /// <summary>How many patches of the strip are in the chart.</summary>
    public int Patches => patches.Length;

    /// <summary>The form that the reference chart has.</summary>
    public DriftForm Form => form;

    /// <summary>Lays a strip beside a chart.</summary>
    /// <param name="reference">The chart the profile was made from, with spectra.</param>
    /// <param name="strip">The strip as read now, under the same M-condition.</param>
    /// <returns>Null where the chart has no <see cref="DriftForm"/>, or fewer than 12 patches of the strip are in it.</returns>
    public static StripFit? Of(MeasurementSet reference, MeasurementSet strip)
    {
        if (DriftForm.Of(reference) is not { } form || strip.Space != reference.Space)
        {
            return null;
        }

        var known = reference.Averaged();
        var patches = strip.Averaged().Select(s => (s.Lab, Was: known.FirstOrDefault(k => k.Device.SequenceEqual(s.Device))?.Spectrum))
            .Where(s => s.Was is not null).Select(s => (s.Was!, form.Coverage(s.Was!), s.Lab)).ToArray();
        return patches.Length < 12 ? null : new(form, patches);
    }

    internal double Nothing(double scale) => patches.Sum(p => Cost(Off(p.Now, DriftForm.Colour(p.Reference)))) / scale;

    /// <summary>Explains the strip by some of the ten numbers, those of one group moving together.</summary>
    /// <returns>The ten numbers, and what is left: robust squares in units of the noise.</returns>
    internal (double[] Drift, double Left) Explain(int[][] groups, int rounds)
    {
        var drift = new double[DriftForm.Numbers];
        var x = new double[groups.Length];
        double left = 0;
        for (var round = 0; round < rounds; round++)
        {
            var slopes = Slopes(groups, drift, x, out var goals);
            (x, left) = Solve(slopes, goals);
            for (var g = 0; g < groups.Length; g++)
            {
                foreach (var k in groups[g])
                {
                    drift[k] = x[g] * Usual[k];
                }
            }
        }

        return (drift, left);
    }

    /// <summary>What a tone curve for each ink would leave of the shift: drift of inks is taken back where there is ink to give,
    /// a paper's tint is not.</summary>
    /// <remarks>A full ink that has become weaker cannot be made stronger by a curve: such patches keep their shift.</remarks>
    public ErrorSummary LeftByCurves()
    {
        var (drift, _) = Explain([.. Enumerable.Range(0, 8).Select(k => (int[])[k])], 3);
        return ErrorSummary.Of(patches.Select(p =>
        {
            var spent = Enumerable.Range(0, 4).Any(j => p.Coverage[j] > Full && drift[j] < 0);
            return CieDe2000.Between(p.Now, DriftForm.Colour(spent ? p.Reference : form.Changed(p.Reference, p.Coverage, drift)));
        }));
    }

    private double[][][] Slopes(int[][] groups, double[] drift, double[] x, out double[][] goals)
    {
        goals = new double[patches.Length][];
        var slopes = new double[patches.Length][][];
        for (var i = 0; i < patches.Length; i++)
        {
            var (reference, coverage, now) = patches[i];
            var here = DriftForm.Colour(form.Changed(reference, coverage, drift));
            goals[i] = Off(now, here);
            slopes[i] = new double[groups.Length][];
            for (var g = 0; g < groups.Length; g++)
            {
                var moved = (double[])drift.Clone();
                foreach (var k in groups[g])
                {
                    moved[k] += SmallStep * Usual[k] / Usual.Max();
                }

                var by = SmallStep / Usual.Max();
                slopes[i][g] = [.. Off(DriftForm.Colour(form.Changed(reference, coverage, moved)), here).Select(d => d / by)];
                for (var a = 0; a < 3; a++)
                {
                    goals[i][a] += slopes[i][g][a] * x[g];
                }
            }
        }

        return slopes;
    }

    private static (double[] X, double Left) Solve(double[][][] slopes, double[][] goals)
    {
        var n = slopes[0].Length;
        var weights = Enumerable.Repeat(1.0, slopes.Length).ToArray();
        var x = new double[n];
        double left = 0;
        for (var round = 0; round < 6; round++)
        {
            var rows = new double[n][];
            for (var j = 0; j < n; j++)
            {
                rows[j] = new double[n + 1];
                rows[j][j] = 1;
                for (var i = 0; i < slopes.Length; i++)
                {
                    for (var a = 0; a < 3; a++)
                    {
                        rows[j][n] += weights[i] * slopes[i][j][a] * goals[i][a];
                        for (var k = 0; k < n; k++)
                        {
                            rows[j][k] += weights[i] * slopes[i][j][a] * slopes[i][k][a];
                        }
                    }
                }
            }

            x = Eliminate(rows);
            left = 0;
            for (var i = 0; i < slopes.Length; i++)
            {
                double[] off = [.. goals[i].Select((g, a) => g - Enumerable.Range(0, n).Sum(j => x[j] * slopes[i][j][a]))];
                var size = Math.Sqrt(off.Sum(o => o * o));
                weights[i] = size > Far ? Far / size : 1;
                left += Cost(off);
            }
        }

        return (x, left);
    }

    // Symmetric and positive, by the ridge: needs no pivoting.
    private static double[] Eliminate(double[][] rows)
    {
        var n = rows.Length;
        for (var k = 0; k < n; k++)
        {
            for (var i = 0; i < n; i++)
            {
                var f = i == k ? 0 : rows[i][k] / rows[k][k];
                for (var j = k; f != 0 && j <= n; j++)
                {
                    rows[i][j] -= f * rows[k][j];
                }
            }
        }

        return [.. rows.Select((r, i) => r[n] / r[i])];
    }

    private static double[] Off(Lab to, Lab from) => [(to.L - from.L) / Noise[0], (to.A - from.A) / Noise[1], (to.B - from.B) / Noise[2]];

    private static double Cost(double[] off)
    {
        var squares = off.Sum(o => o * o);
        return squares > Far * Far ? (2 * Far * Math.Sqrt(squares)) - (Far * Far) : squares;
    }
}
