using System.Numerics;
using Goodsheet.Colour.Numerics;

namespace Goodsheet.Colour.Printer;

/// <summary>Covariances between one device value and all data, in vector loops over the data.</summary>
internal sealed class Covariance
{
    // Smooth difference between charts of different days.
    private const double ChartVariance = 0.0018;
    private const double ChartLength = 2.0;

    // What the deviations of two papers on one printer from their own trends have in common: found on a matte and a gloss
    // paper, each way, at several sizes of chart.
    private const double BetweenPapers = 0.4;

    // A ridge term this small changes no digit that anybody sees.
    private const double NoGreyness = 1e-9;

    private static readonly double Sqrt5 = Math.Sqrt(5);

    private readonly KernelForm form;
    private readonly double[][] features;  // one array per feature, padded
    private readonly int[] greyRows;
    private readonly double[] greyness;
    private readonly double[] alongGreys;
    private readonly double[][] device;
    private readonly int[]? chart;
    private readonly int[]? paper;
    private readonly DriverTables.Nodes? nodes;

    public Covariance(KernelForm form, TrainingData data)
    {
        var device = data.Device;
        (this.form, this.device) = (form, device);
        chart = data.Charts > 1 ? data.Chart : null;
        paper = data.Papers > 1 ? data.Paper : null;
        Padded = Simd.Padded(device.Length);
        features = [.. Enumerable.Range(0, form.FeatureCount).Select(_ => new double[Padded])];
        var one = new double[form.FeatureCount];
        for (var i = 0; i < device.Length; i++)
        {
            Scaled(device[i], one);
            for (var f = 0; f < one.Length; f++)
            {
                features[f][i] = one[f];
            }
        }

        greyness = [.. device.Select(d => form.Greyness(d))];
        alongGreys = [.. device.Select(d => form.AlongGreys(d))];
        nodes = form.HasDriver ? new(device, [.. greyness.Select(g => 1 - g)]) : null;
        greyRows = form.RidgeVariance > 0 ? [.. Enumerable.Range(0, device.Length).Where(i => greyness[i] > NoGreyness)] : [];
    }

    public int Padded { get; }

    /// <summary>The variance of the model at a device value, before any data.</summary>
    public double Prior(ReadOnlySpan<double> at, bool ofChart)
    {
        var grey = form.Greyness(at);
        return 1 + (form.RidgeVariance * grey * grey) + (form.HasDriver ? (1 - grey) * (1 - grey) * DriverTables.Variance(at) : 0) + (ofChart ? ChartVariance : 0);
    }

    /// <summary>Fills a row with covariances to the first <paramref name="count"/> data (rounded up to whole vectors).</summary>
    /// <param name="at">The device value.</param>
    /// <param name="chartOf">The chart that is asked for, or −1 for the paper and printer whatever the day.</param>
    /// <param name="paperOf">The paper that is asked for.</param>
    /// <param name="row">Filled.</param>
    /// <param name="count">How many data, the first ones.</param>
    public void Row(ReadOnlySpan<double> at, int chartOf, int paperOf, Span<double> row, int count)
    {
        Span<double> q = stackalloc double[form.FeatureCount];
        Scaled(at, q);
        Matern(q, Simd.Vectors(row[..Simd.Padded(count)]));
        AddRidge(at, row, count);
        nodes?.Add(at, 1 - form.Greyness(at), row, count);
        if (paper is not null)
        {
            for (var i = 0; i < count; i++)
            {
                row[i] *= paper[i] == paperOf ? 1 : BetweenPapers;
            }
        }

        AddChart(at, chartOf, row, count);
    }

    // The root of 5 of the kernel is taken into the features.
    private void Scaled(ReadOnlySpan<double> at, Span<double> q)
    {
        form.Features(at, q);
        for (var i = 0; i < q.Length; i++)
        {
            q[i] *= Sqrt5;
        }
    }

    // Matern 5/2: (1 + s + s²/3) exp(−s).
    private void Matern(ReadOnlySpan<double> q, Span<Vector<double>> row)
    {
        for (var v = 0; v < row.Length; v++)
        {
            var d2 = Vector<double>.Zero;
            for (var f = 0; f < q.Length; f++)
            {
                var d = Simd.Vectors((ReadOnlySpan<double>)features[f])[v] - new Vector<double>(q[f]);
                d2 = Vector.FusedMultiplyAdd(d, d, d2);
            }

            var s = Vector.SquareRoot(d2);
            row[v] = Vector.FusedMultiplyAdd(d2, new(1.0 / 3), Vector<double>.One + s) * Simd.ExpOfNegative(-s);
        }
    }

    private void AddRidge(ReadOnlySpan<double> at, Span<double> row, int count)
    {
        var grey = form.RidgeVariance > 0 ? form.Greyness(at) : 0;
        if (grey <= NoGreyness)
        {
            return;
        }

        var along = form.AlongGreys(at);
        foreach (var i in greyRows)
        {
            if (i >= count)
            {
                break;
            }

            row[i] += form.RidgeVariance * form.RidgeCorrelation(Math.Abs(along - alongGreys[i])) * grey * greyness[i];
        }
    }

    private void AddChart(ReadOnlySpan<double> at, int chartOf, Span<double> row, int count)
    {
        if (chart is null || chartOf < 0)
        {
            return;
        }

        for (var i = 0; i < count; i++)
        {
            if (chart[i] == chartOf)
            {
                var d2 = 0.0;
                for (var c = 0; c < at.Length; c++)
                {
                    d2 += (at[c] - device[i][c]) * (at[c] - device[i][c]);
                }

                row[i] += ChartVariance * Math.Exp(-d2 / (2 * ChartLength * ChartLength));
            }
        }
    }
}
