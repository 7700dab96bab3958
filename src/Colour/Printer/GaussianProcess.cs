using System.Numerics;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Numerics;

namespace Goodsheet.Colour.Printer;

/// <summary>Gaussian-process regression from device values to Lab, with a trend that is fitted along.</summary>
/// <remarks>
/// C. E. Rasmussen, C. K. I. Williams, "Gaussian Processes for Machine Learning" (2006), 2.2 and 2.7. The trend is
/// profiled out rather than put into the kernel: that keeps the matrix well conditioned.
/// </remarks>
internal sealed class GaussianProcess
{
    private const int QueriesTogether = 64;

    private readonly KernelForm form;
    private readonly Covariance covariance;
    private readonly Cholesky factor;
    private readonly TrainingData data;
    private readonly PaperScale[] papers;
    private readonly double[][] alpha;      // per output, padded with zeros
    private readonly FittedTerms terms;
    private double[][]? profiled;            // blocks of the profiled inverse, once asked for

    private GaussianProcess(KernelForm form, TrainingData data, IProgress<double>? progress, CancellationToken stop)
    {
        (this.form, this.data) = (form, data);
        var n = data.Length;
        papers = [.. Enumerable.Range(0, data.Papers).Select(p => PaperScale.Of(form, [.. data.Lab.Where((_, i) => data.Paper[i] == p)]))];
        for (var p = 1; p < papers.Length; p++)
        {
            papers[p].FirstTerm = papers[p - 1].FirstTerm + papers[p - 1].Terms;
        }

        covariance = new(form, data);
        var stride = covariance.Padded;
        var c = new double[(long)n * stride];
        Parallel.For(0, n, new ParallelOptions { CancellationToken = stop }, i =>
            covariance.Row(data.Device[i], data.Charts > 1 ? data.Chart[i] : -1, data.Paper[i], c.AsSpan(i * stride, stride), i + 1));
        AddNoise(c, stride);
        factor = Cholesky.Factor(c, n, stride, progress, stop);

        alpha = [.. Enumerable.Range(0, 3).Select(k => data.Lab.Select((l, i) => papers[data.Paper[i]].Scaled(l, k)).ToArray())];
        terms = new(form, data, papers, factor, alpha);
        alpha = [.. alpha.Select(a => (double[])[.. a, .. new double[stride - n]])];
    }

    /// <summary>Learns from data.</summary>
    /// <exception cref="ArgumentException">The data do not span the device space: the trend cannot be told.</exception>
    public static GaussianProcess Fit(KernelForm form, TrainingData data, IProgress<double>? progress = null, CancellationToken stop = default) =>
        new(form, data, progress, stop);

    public void Predict(ReadOnlySpan<double> device, Span<double> lab, int chart = -1)
    {
        var n = device.Length / form.Channels;
        if (n * form.Channels != device.Length || lab.Length != n * 3)
        {
            throw new ArgumentException($"Device values of {form.Channels} channels and Lab values of 3 do not make the same rows.");
        }

        if (n <= QueriesTogether)
        {
            PredictRows(device, lab, chart);
            return;
        }

        // Spans cannot cross into threads, arrays can.
        var from = device.ToArray();
        var to = new double[lab.Length];
        Parallel.For(0, (n + QueriesTogether - 1) / QueriesTogether, g =>
        {
            var first = g * QueriesTogether;
            var count = Math.Min(QueriesTogether, n - first);
            PredictRows(from.AsSpan(first * form.Channels, count * form.Channels), to.AsSpan(first * 3, count * 3), chart);
        });
        to.CopyTo(lab);
    }

    /// <summary>How far each patch lies from what the others say of it, as measured minus foretold.</summary>
    /// <remarks>Closed form, without fitting again: alpha over the patch's own block of the profiled inverse (Rasmussen 5.12, for
    /// three outputs that are left out together).</remarks>
    public Lab[] LeaveOneOutResiduals(CancellationToken stop) => Residuals(false, stop);

    /// <summary>The same, each divided by the standard deviation that the model expects of it, but for one factor.</summary>
    public Lab[] ScaledResiduals(CancellationToken stop) => Residuals(true, stop);

    /// <summary>The standard deviation of L*, a*, b* at a device value, the noise of one reading left out.</summary>
    public Lab StandardDeviation(ReadOnlySpan<double> device)
    {
        var (variance, spread) = (Variance(device), papers[0].Spread);
        return new(Math.Sqrt(variance[0]) * spread[0], Math.Sqrt(variance[1]) * spread[1], Math.Sqrt(variance[2]) * spread[2]);
    }

    /// <summary>The standard deviations expected of a patch that was not learnt, in the unit of <see cref="ScaledResiduals"/>.</summary>
    public Lab ReadingDeviation(ReadOnlySpan<double> device, Lab lab, int count)
    {
        var (variance, noise) = (Variance(device), papers[0].Noise(lab, count));
        return new(Math.Sqrt(variance[0] + noise), Math.Sqrt(variance[1] + noise), Math.Sqrt(variance[2] + noise));
    }

    private double[] Variance(ReadOnlySpan<double> device)
    {
        var row = new double[covariance.Padded];
        covariance.Row(device, -1, 0, row, data.Length);
        var solved = row[..data.Length];
        factor.Forward([solved], 0);
        var variance = covariance.Prior(device, false) - Simd.Dot(solved, solved);
        return [.. terms.Doubt(device, solved).Select(doubt => Math.Max(0, variance + doubt))];
    }

    private Lab[] Residuals(bool scaled, CancellationToken stop)
    {
        profiled ??= terms.Profiled(factor.InverseDiagonal(stop), stop);
        return [.. profiled.Select((block, i) =>
        {
            var inverse = Inverse(block);
            var r = new double[3];
            for (var k = 0; k < 3; k++)
            {
                r[k] = ((inverse[3 * k] * alpha[0][i]) + (inverse[(3 * k) + 1] * alpha[1][i]) + (inverse[(3 * k) + 2] * alpha[2][i]))
                    * papers[data.Paper[i]].Spread[k] / (scaled ? Math.Sqrt(inverse[4 * k]) : 1);
            }

            return new Lab(r[0], r[1], r[2]);
        })];
    }

    // Of a matrix of 3 by 3.
    private static double[] Inverse(double[] m)
    {
        double Minor(int a, int b, int c, int d) => (m[a] * m[d]) - (m[b] * m[c]);
        double[] adjugate = [Minor(4, 5, 7, 8), Minor(2, 1, 8, 7), Minor(1, 2, 4, 5), Minor(5, 3, 8, 6), Minor(0, 2, 6, 8), Minor(2, 0, 5, 3), Minor(3, 4, 6, 7), Minor(1, 0, 7, 6), Minor(0, 1, 3, 4)];
        var determinant = (m[0] * adjugate[0]) + (m[1] * adjugate[3]) + (m[2] * adjugate[6]);
        return [.. adjugate.Select(v => v / determinant)];
    }

    private void AddNoise(double[] c, int stride)
    {
        for (var i = 0; i < data.Length; i++)
        {
            c[(i * stride) + i] += papers[data.Paper[i]].Noise(data.Lab[i], data.Count[i]);
        }
    }

    private void PredictRows(ReadOnlySpan<double> device, Span<double> lab, int chart)
    {
        var row = new double[covariance.Padded];
        var paper = papers[0];
        for (var q = 0; q * 3 < lab.Length; q++)
        {
            var at = device.Slice(q * form.Channels, form.Channels);
            covariance.Row(at, chart, 0, row, data.Length);
            var (s0, s1, s2) = (Vector<double>.Zero, Vector<double>.Zero, Vector<double>.Zero);
            var k = Simd.Vectors((ReadOnlySpan<double>)row);
            var a0 = Simd.Vectors((ReadOnlySpan<double>)alpha[0])[..k.Length];
            var a1 = Simd.Vectors((ReadOnlySpan<double>)alpha[1])[..k.Length];
            var a2 = Simd.Vectors((ReadOnlySpan<double>)alpha[2])[..k.Length];
            for (var v = 0; v < k.Length; v++)
            {
                s0 = Vector.FusedMultiplyAdd(k[v], a0[v], s0);
                s1 = Vector.FusedMultiplyAdd(k[v], a1[v], s1);
                s2 = Vector.FusedMultiplyAdd(k[v], a2[v], s2);
            }

            var colour = lab.Slice(q * 3, 3);
            (colour[0], colour[1], colour[2]) = (Vector.Sum(s0), Vector.Sum(s1), Vector.Sum(s2));
            terms.Add(at, colour);
            for (var o = 0; o < 3; o++)
            {
                colour[o] = (colour[o] * paper.Spread[o]) + paper.Mean[o];
            }
        }
    }
}
