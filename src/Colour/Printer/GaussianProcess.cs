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
    private readonly double[][] trend;      // per output, the coefficients
    private readonly double[][] solvedTrend; // C⁻¹P, a row per term
    private readonly double[][] trendTerms;  // P, a row per term
    private readonly Cholesky trendFactor;   // of Pᵀ C⁻¹ P
    private double[]? inverseDiagonal;       // of the profiled inverse, once asked for

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

        var y = Enumerable.Range(0, 3).Select(k => data.Lab.Select((l, i) => papers[data.Paper[i]].Scaled(l, k)).ToArray()).ToArray();
        var terms = papers.Sum(p => p.Terms);
        trendTerms = TrendRows(terms);
        solvedTrend = [.. trendTerms.Select(t => t.ToArray())];
        factor.Solve(solvedTrend);
        var gram = new double[terms * terms];
        for (var i = 0; i < terms * terms; i++)
        {
            gram[i] = Simd.Dot(trendTerms[i / terms], solvedTrend[i % terms]);
        }

        trendFactor = Cholesky.Factor(gram, terms, terms, stop: stop);
        trend = [.. y.Select(o => solvedTrend.Select(t => Simd.Dot(t, o)).ToArray())];
        trendFactor.Solve(trend);
        for (var k = 0; k < 3; k++)
        {
            for (var t = 0; t < terms; t++)
            {
                Simd.AddScaled(y[k], -trend[k][t], trendTerms[t]);
            }
        }

        factor.Solve(y);
        alpha = [.. y.Select(a => (double[])[.. a, .. new double[stride - n]])];
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
    /// <remarks>Closed form, without fitting again: alpha over the diagonal of the profiled inverse (Rasmussen 5.12).</remarks>
    public Lab[] LeaveOneOutResiduals(CancellationToken stop) => Residuals(q => q, stop);

    /// <summary>The same, each divided by the standard deviation that the model expects of it, but for one factor.</summary>
    public Lab[] ScaledResiduals(CancellationToken stop) => Residuals(Math.Sqrt, stop);

    /// <summary>The standard deviation of L*, a*, b* at a device value, the noise of one reading left out.</summary>
    public Lab StandardDeviation(ReadOnlySpan<double> device)
    {
        var sd = Math.Sqrt(Variance(device));
        var spread = papers[0].Spread;
        return new(sd * spread[0], sd * spread[1], sd * spread[2]);
    }

    /// <summary>The standard deviation expected of a patch that was not learnt, in the unit of <see cref="ScaledResiduals"/>.</summary>
    public double ReadingDeviation(ReadOnlySpan<double> device, Lab lab, int count) =>
        Math.Sqrt(Variance(device) + papers[0].Noise(lab, count));

    private double Variance(ReadOnlySpan<double> device)
    {
        var row = new double[covariance.Padded];
        covariance.Row(device, -1, 0, row, data.Length);
        var solved = row[..data.Length];
        var p = new double[trend[0].Length];
        form.Trend(device, p.AsSpan(0, papers[0].Terms));
        for (var t = 0; t < p.Length; t++)
        {
            p[t] -= Simd.Dot(solvedTrend[t], row);
        }

        factor.Forward([solved], 0);
        var variance = covariance.Prior(device, false) - Simd.Dot(solved, solved);
        trendFactor.Forward([p], 0);
        return Math.Max(0, variance + Simd.Dot(p, p));
    }

    private Lab[] Residuals(Func<double, double> over, CancellationToken stop)
    {
        inverseDiagonal ??= ProfiledInverseDiagonal(stop);
        return
        [
            .. inverseDiagonal.Select((q, i) => (Over: over(q), papers[data.Paper[i]].Spread, I: i)).Select(r => new Lab(
                r.Spread[0] * alpha[0][r.I] / r.Over, r.Spread[1] * alpha[1][r.I] / r.Over, r.Spread[2] * alpha[2][r.I] / r.Over)),
        ];
    }

    private double[] ProfiledInverseDiagonal(CancellationToken stop)
    {
        var diagonal = factor.InverseDiagonal(stop);
        for (var i = 0; i < diagonal.Length; i++)
        {
            double[] column = [.. solvedTrend.Select(t => t[i])];
            trendFactor.Forward([column], 0);
            diagonal[i] -= Simd.Dot(column, column);
        }

        return diagonal;
    }

    private void AddNoise(double[] c, int stride)
    {
        for (var i = 0; i < data.Length; i++)
        {
            c[(i * stride) + i] += papers[data.Paper[i]].Noise(data.Lab[i], data.Count[i]);
        }
    }

    private double[][] TrendRows(int terms)
    {
        double[][] rows = [.. Enumerable.Range(0, terms).Select(_ => new double[data.Length])];
        var one = new double[terms];
        for (var i = 0; i < data.Length; i++)
        {
            var paper = papers[data.Paper[i]];
            Array.Clear(one);
            form.Trend(data.Device[i], one.AsSpan(paper.FirstTerm, paper.Terms));
            for (var t = 0; t < terms; t++)
            {
                rows[t][i] = one[t];
            }
        }

        return rows;
    }

    private void PredictRows(ReadOnlySpan<double> device, Span<double> lab, int chart)
    {
        var row = new double[covariance.Padded];
        var paper = papers[0];
        Span<double> terms = stackalloc double[paper.Terms];
        for (var q = 0; q * 3 < lab.Length; q++)
        {
            var at = device.Slice(q * form.Channels, form.Channels);
            covariance.Row(at, chart, 0, row, data.Length);
            form.Trend(at, terms);
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
            for (var o = 0; o < 3; o++)
            {
                colour[o] = ((colour[o] + Simd.Dot(terms, trend[o].AsSpan(0, terms.Length))) * paper.Spread[o]) + paper.Mean[o];
            }
        }
    }
}
