using Goodsheet.Colour.Numerics;

namespace Goodsheet.Colour.Printer;

/// <summary>How far the curves of a printer's driver err, each at its nodes: the colour then moves as that channel moves it there.</summary>
/// <remarks>
/// A driver takes each channel through a curve that is read by straight lines between nodes. What a node errs by is a shift of the
/// device value near it, so the colour is off along the direction in which that channel moves it, which is known from all
/// patches: on L*, a* and b* alike and on every patch near the node, wherever the other channels are. So the errors are fitted
/// along with the model, one number a node for all three outputs, each held to 0 by a variance. The spacing was found in
/// docs/decisions/0400, the form in 0406. On the greys the driver goes its own way, and nothing is shared there.
/// </remarks>
internal sealed class DriverCurves
{
    /// <summary>How many errors there are: those of three curves.</summary>
    public const int Count = 3 * Nodes;

    /// <summary>How many nodes a device value lies between, two of each curve.</summary>
    public const int Shares = 6;

    /// <summary>Variance of an error before any data, in levels, relative to the variance of the model as everything is.</summary>
    public const double Variance = 0.5;

    private const double Levels = 255;
    private const int Step = 8;
    private const int Nodes = (int)(Levels / Step) + 2;

    // Slopes are taken over this far to both sides, since the warp is steep without end at 0 and 1.
    private const double Reach = 2 / Levels;

    // Keeps the surface determined when the patches do not tell all its terms.
    private const double Ridge = 1e-3;

    private readonly RgbForm form;
    private readonly double[][] surface;  // per output, a polynomial of the warped channels

    /// <param name="form">The form of the model.</param>
    /// <param name="device">R, G, B of one paper's patches, each 0 to 1.</param>
    /// <param name="outputs">Three rows: what is learnt, scaled.</param>
    /// <param name="terms">Terms of a trend: linear or quadratic.</param>
    public DriverCurves(RgbForm form, double[][] device, double[][] outputs, int terms)
    {
        this.form = form;
        double[][] rows = [.. device.Select(d =>
        {
            var row = new double[terms];
            form.Trend([RgbForm.Warped(d[0]), RgbForm.Warped(d[1]), RgbForm.Warped(d[2])], row);
            return row;
        })];
        var gram = new double[terms * terms];
        surface = [.. outputs.Select(_ => new double[terms])];
        for (var i = 0; i < rows.Length; i++)
        {
            for (var t = 0; t < terms; t++)
            {
                Simd.AddScaled(gram.AsSpan(t * terms, terms), rows[i][t], rows[i]);
                for (var k = 0; k < surface.Length; k++)
                {
                    surface[k][t] += rows[i][t] * outputs[k][i];
                }
            }
        }

        for (var t = 0; t < terms; t++)
        {
            gram[(t * terms) + t] += Ridge;
        }

        Cholesky.Factor(gram, terms, terms).Solve(surface);
    }

    /// <summary>What a level of error at each near node moves each output by.</summary>
    /// <param name="device">R, G, B, each 0 to 1.</param>
    /// <param name="node">Filled with <see cref="Shares"/> numbers of nodes, below <see cref="Count"/>.</param>
    /// <param name="moves">Filled with as many values for the first output, then for the second and the third.</param>
    public void At(ReadOnlySpan<double> device, Span<int> node, Span<double> moves)
    {
        Span<double> w = [RgbForm.Warped(device[0]), RgbForm.Warped(device[1]), RgbForm.Warped(device[2])];
        var apart = 1 - form.Greyness(device);
        for (var c = 0; c < 3; c++)
        {
            var x = Math.Clamp(device[c], 0, 1);
            var (low, high) = (Math.Max(0, x - Reach), Math.Min(1, x + Reach));
            var (below, above) = (RgbForm.Warped(low), RgbForm.Warped(high));
            var perLevel = apart * (above - below) / ((high - low) * Levels);
            var first = (int)(x * Levels / Step);
            var past = (x * Levels / Step) - first;
            (node[2 * c], node[(2 * c) + 1]) = ((c * Nodes) + first, (c * Nodes) + first + 1);
            for (var k = 0; k < surface.Length; k++)
            {
                var move = perLevel * Slope(surface[k], w, c, (below + above) / 2);
                (moves[(Shares * k) + (2 * c)], moves[(Shares * k) + (2 * c) + 1]) = (move * (1 - past), move * past);
            }
        }
    }

    // Of the polynomial along one warped channel, at a place on it: exact for the difference of two places around it.
    private static double Slope(double[] p, ReadOnlySpan<double> w, int channel, double at)
    {
        var slope = p[1 + channel];
        for (int i = 0, t = 4; i < 3 && t < p.Length; i++)
        {
            for (var j = i; j < 3; j++, t++)
            {
                slope += i == channel && j == channel ? 2 * p[t] * at : i == channel ? p[t] * w[j] : j == channel ? p[t] * w[i] : 0;
            }
        }

        return slope;
    }
}
