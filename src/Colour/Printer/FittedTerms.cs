using Goodsheet.Colour.Numerics;

namespace Goodsheet.Colour.Printer;

/// <summary>What is fitted along with a process: a trend of its own for each output, and errors of the driver's curves that all
/// three share.</summary>
/// <remarks>
/// Generalized least squares, the shared terms with a variance known beforehand: C. E. Rasmussen, C. K. I. Williams, "Gaussian
/// Processes for Machine Learning" (2006), 2.7. Coefficients stand in one row: the trend of L*, of a*, of b*, then what is shared.
/// All is kept as the factor's forward solution, from which sums over the inverse of the covariance are dot products.
/// </remarks>
internal sealed class FittedTerms
{
    private const int Outputs = 3;
    private const int Together = 8;

    private readonly KernelForm form;
    private readonly PaperScale[] papers;
    private readonly DriverCurves[] curves;  // one a paper, or none
    private readonly Cholesky factor;
    private readonly Cholesky normal;
    private readonly double[][] trendRows;     // forward solutions, a row a term
    private readonly double[][][] sharedRows;  // the same for each output
    private readonly double[] found;
    private readonly int trends;
    private readonly int shared;

    /// <param name="form">The form of the model.</param>
    /// <param name="data">What is learnt.</param>
    /// <param name="papers">The scale of each paper.</param>
    /// <param name="factor">Of the covariance of the data.</param>
    /// <param name="outputs">Three rows, scaled. What is left of them after the terms is given back, divided by the covariance.</param>
    public FittedTerms(KernelForm form, TrainingData data, PaperScale[] papers, Cholesky factor, double[][] outputs)
    {
        (this.form, this.papers, this.factor) = (form, papers, factor);
        trends = papers.Sum(p => p.Terms);
        curves = form is RgbForm { HasDriver: true } rgb
            ? [.. papers.Select((p, i) => CurvesOf(rgb, p, [.. Enumerable.Range(0, data.Length).Where(d => data.Paper[d] == i)], data, outputs))]
            : [];
        shared = curves.Length * DriverCurves.Count;
        trendRows = Rows(trends, data.Length);
        sharedRows = [.. Enumerable.Range(0, Outputs).Select(_ => Rows(shared, data.Length))];
        Fill(data);
        double[][] all = [.. trendRows, .. sharedRows.SelectMany(r => r), .. outputs];
        Parallel.For(0, (all.Length + Together - 1) / Together, g => factor.Forward(all[(g * Together)..Math.Min(all.Length, (g + 1) * Together)], 0));
        (normal, found) = Solved(outputs);
        for (var k = 0; k < Outputs; k++)
        {
            for (var t = 0; t < trends; t++)
            {
                Simd.AddScaled(outputs[k], -found[(k * trends) + t], trendRows[t]);
            }

            for (var s = 0; s < shared; s++)
            {
                Simd.AddScaled(outputs[k], -found[(Outputs * trends) + s], sharedRows[k][s]);
            }
        }

        factor.Backward(outputs);
    }

    private int Coefficients => (Outputs * trends) + shared;

    /// <summary>Adds what the terms say of a device value on the first paper, scaled.</summary>
    public void Add(ReadOnlySpan<double> device, Span<double> outputs)
    {
        Span<double> terms = stackalloc double[papers[0].Terms];
        form.Trend(device, terms);
        for (var k = 0; k < Outputs; k++)
        {
            outputs[k] += Simd.Dot(terms, found.AsSpan(k * trends, terms.Length));
        }

        if (curves.Length == 0)
        {
            return;
        }

        Span<int> node = stackalloc int[DriverCurves.Shares];
        Span<double> moves = stackalloc double[Outputs * DriverCurves.Shares];
        curves[0].At(device, node, moves);
        for (var i = 0; i < moves.Length; i++)
        {
            outputs[i / DriverCurves.Shares] += moves[i] * found[(Outputs * trends) + node[i % DriverCurves.Shares]];
        }
    }

    /// <summary>The variance that the terms leave in each output of a device value on the first paper.</summary>
    /// <param name="device">The device value.</param>
    /// <param name="solved">The forward solution of its covariances with the data.</param>
    public double[] Doubt(ReadOnlySpan<double> device, double[] solved)
    {
        Span<double> terms = stackalloc double[papers[0].Terms];
        form.Trend(device, terms);
        Span<int> node = stackalloc int[DriverCurves.Shares];
        Span<double> moves = stackalloc double[Outputs * DriverCurves.Shares];
        if (curves.Length > 0)
        {
            curves[0].At(device, node, moves);
        }

        var doubt = new double[Outputs];
        for (var k = 0; k < Outputs; k++)
        {
            var row = new double[Coefficients];
            for (var t = 0; t < trends; t++)
            {
                row[(k * trends) + t] = (t < terms.Length ? terms[t] : 0) - Simd.Dot(trendRows[t], solved);
            }

            for (var s = 0; s < shared; s++)
            {
                row[(Outputs * trends) + s] = -Simd.Dot(sharedRows[k][s], solved);
            }

            for (var i = 0; i < DriverCurves.Shares && curves.Length > 0; i++)
            {
                row[(Outputs * trends) + node[i]] += moves[(k * DriverCurves.Shares) + i];
            }

            normal.Forward([row], 0);
            doubt[k] = Simd.Dot(row, row);
        }

        return doubt;
    }

    /// <summary>The inverse of the covariance of all outputs together, for each datum the block of its three outputs.</summary>
    /// <param name="diagonal">The diagonal of the inverse of one output's covariance, without terms.</param>
    /// <param name="stop">Stops it.</param>
    /// <returns>Nine numbers a datum, by rows.</returns>
    public double[][] Profiled(double[] diagonal, CancellationToken stop)
    {
        double[][] trend = [.. trendRows.Select(r => r.ToArray())];
        double[][][] curve = [.. sharedRows.Select(o => o.Select(r => r.ToArray()).ToArray())];
        double[][] all = [.. trend, .. curve.SelectMany(r => r)];
        var options = new ParallelOptions { CancellationToken = stop };
        Parallel.For(0, (all.Length + Together - 1) / Together, options, g => factor.Backward(all[(g * Together)..Math.Min(all.Length, (g + 1) * Together)]));
        var blocks = new double[diagonal.Length][];
        Parallel.For(0, diagonal.Length, options, i =>
        {
            double[][] columns = [.. Enumerable.Range(0, Outputs).Select(k =>
            {
                var column = new double[Coefficients];
                for (var t = 0; t < trends; t++)
                {
                    column[(k * trends) + t] = trend[t][i];
                }

                for (var s = 0; s < shared; s++)
                {
                    column[(Outputs * trends) + s] = curve[k][s][i];
                }

                return column;
            })];
            normal.Forward(columns, 0);
            blocks[i] = [.. Enumerable.Range(0, Outputs * Outputs).Select(b =>
                (b / Outputs == b % Outputs ? diagonal[i] : 0) - Simd.Dot(columns[b / Outputs], columns[b % Outputs]))];
        });
        return blocks;
    }

    private static double[][] Rows(int rows, int length) => [.. Enumerable.Range(0, rows).Select(_ => new double[length])];

    private static DriverCurves CurvesOf(RgbForm form, PaperScale paper, int[] rows, TrainingData data, double[][] outputs) =>
        new(form, [.. rows.Select(i => data.Device[i])], [.. outputs.Select(o => rows.Select(i => o[i]).ToArray())], paper.Terms);

    private void Fill(TrainingData data)
    {
        var one = new double[trends];
        Span<int> node = stackalloc int[DriverCurves.Shares];
        Span<double> moves = stackalloc double[Outputs * DriverCurves.Shares];
        for (var i = 0; i < data.Length; i++)
        {
            var paper = papers[data.Paper[i]];
            Array.Clear(one);
            form.Trend(data.Device[i], one.AsSpan(paper.FirstTerm, paper.Terms));
            for (var t = 0; t < trends; t++)
            {
                trendRows[t][i] = one[t];
            }

            if (curves.Length > 0)
            {
                curves[data.Paper[i]].At(data.Device[i], node, moves);
                for (var m = 0; m < moves.Length; m++)
                {
                    sharedRows[m / DriverCurves.Shares][(data.Paper[i] * DriverCurves.Count) + node[m % DriverCurves.Shares]][i] = moves[m];
                }
            }
        }
    }

    // The normal equations, and their solution.
    private (Cholesky Normal, double[] Found) Solved(double[][] outputs)
    {
        var (size, side, first) = (Coefficients, new double[Coefficients], Outputs * trends);
        var gram = new double[size * size];
        Parallel.For(0, shared, s =>
        {
            for (var k = 0; k < Outputs; k++)
            {
                for (var t = 0; t < trends; t++)
                {
                    gram[((first + s) * size) + (k * trends) + t] = Simd.Dot(sharedRows[k][s], trendRows[t]);
                }

                for (var other = 0; other <= s; other++)
                {
                    gram[((first + s) * size) + first + other] += Simd.Dot(sharedRows[k][s], sharedRows[k][other]);
                }

                side[first + s] += Simd.Dot(sharedRows[k][s], outputs[k]);
            }

            gram[((first + s) * size) + first + s] += 1 / DriverCurves.Variance;
        });
        for (var t = 0; t < trends; t++)
        {
            for (var k = 0; k < Outputs; k++)
            {
                side[(k * trends) + t] = Simd.Dot(trendRows[t], outputs[k]);
                for (var other = 0; other <= t; other++)
                {
                    gram[(((k * trends) + t) * size) + (k * trends) + other] = Simd.Dot(trendRows[t], trendRows[other]);
                }
            }
        }

        var factored = Cholesky.Factor(gram, size, size);
        factored.Solve([side]);
        return (factored, side);
    }
}
