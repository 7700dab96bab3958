using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>Keeps toned ramps through a table from the connection space from stepping back in lightness, whatever way they lead between its nodes.</summary>
/// <remarks>
/// <see cref="FallingColumns"/> looks along the nodes of one a* and b*. A ramp whose tint changes goes aslant through the
/// cells, and can fall on its way up though no column does: where a condition folds (docs/decisions/0407), or where mixes of
/// four inks differ from node to node. Of each such ramp two places, of which the later prints darker, are drawn together until
/// it does not, both by as much, and the nodes around them are moved by the least that does it: the relaxation method for
/// inequalities (S. Agmon, Canadian Journal of Mathematics 6, 1954; from memory). See docs/decisions/0408.
/// </remarks>
internal sealed class RisingRamps
{
    private const int Corners = 8;
    private const int Places = 512; // of a ramp, 0 to 100 in L*, less than .2 apart in the shadows, .4 at most
    private const double Crowd = 2; // the power that draws them towards black
    private const int Hues = 72;
    private const double Allowed = 0.02; // L*: of .05, the rest is left to the ramps between those that are looked at
    private const double AllowedGrey = 0.002; // as in FallingColumns
    private const double Left = 0.5; // of what is allowed: corrected so far
    private const int Rounds = 40;
    private const double LeastPart = 0.05;
    private const double Damping = 0.02; // two places close together are told apart by hardly any node: no great moves for their sake
    private const int InOneRound = 6;
    private const int Tries = 32;

    private static readonly double[] Chromas = [1.5, 3.5, 5.5, 7.5, 9.5, 11.5, 13.5, 15.5, 17.5, 19.5, 21.5, 23.5];

    private readonly DeviceLattice lattice;
    private readonly int channels;
    private readonly (double Low, double High) range;
    private readonly double limit;
    private readonly int[] nodes;
    private readonly float[] weights;
    private readonly int ramps;

    /// <param name="box">What the table covers.</param>
    /// <param name="lattice">The printing condition.</param>
    /// <param name="range">Between which node values may lie.</param>
    /// <param name="limit">The most ink of all channels together, 1 a channel; CMYK only.</param>
    public RisingRamps(PcsBox box, DeviceLattice lattice, (double Low, double High) range, double limit)
    {
        (this.lattice, channels, this.range, this.limit) = (lattice, lattice.Channels, range, limit);
        int[] grid = [box.Points, box.Points, box.Points];
        ramps = 1 + (2 * Chromas.Length * Hues);
        nodes = new int[ramps * Places * Corners];
        weights = new float[nodes.Length];
        Parallel.For(0, ramps, ramp =>
        {
            Span<double> at = stackalloc double[3];
            Span<double> weight = stackalloc double[LatticeCell.MostCorners];
            Span<int> corner = stackalloc int[LatticeCell.MostCorners];
            for (var i = 0; i < Places; i++)
            {
                var colour = Colour(ramp, Math.Pow((double)i / (Places - 1), Crowd));
                (at[0], at[1], at[2]) = (box.Along(0, colour.L), box.Along(1, colour.A), box.Along(2, colour.B));
                LatticeCell.Find(at, grid, Interpolation.Multilinear, corner, weight);
                for (var c = 0; c < Corners; c++)
                {
                    nodes[(((ramp * Places) + i) * Corners) + c] = corner[c];
                    weights[(((ramp * Places) + i) * Corners) + c] = (float)weight[c];
                }
            }
        });
    }

    /// <summary>Mends the nodes of a table in place.</summary>
    /// <param name="values">Device values of all nodes, before the output curves clip them.</param>
    public void Straighten(double[] values)
    {
        var back = new double[ramps];
        var lightness = new double[Places];
        var (best, least, part) = ((double[])values.Clone(), Look(), 1.0);
        for (var round = 0; round < Rounds && least > 0 && part >= LeastPart; round++)
        {
            // One after the other: what mends one mends those beside it.
            for (var ramp = 0; ramp < ramps; ramp++)
            {
                for (var k = 0; k < InOneRound && back[ramp] > Most(ramp); k++)
                {
                    var (worst, from, at) = Worst(values, ramp, lightness);
                    back[ramp] = worst;
                    if (worst > Most(ramp))
                    {
                        Draw(values, (ramp * Places) + from, (ramp * Places) + at, Left * Most(ramp), part);
                    }
                }
            }

            if (Look() is var now && now < least)
            {
                least = now;
                values.CopyTo(best, 0);
            }
            else
            {
                // What mends one ramp can spoil another: then by smaller steps, from the best there was.
                best.CopyTo(values, 0);
                part /= 2;
                Look();
            }
        }

        double Look()
        {
            Parallel.For(0, ramps, ramp => back[ramp] = Worst(values, ramp, new double[Places]).Back);
            return Enumerable.Range(0, ramps).Sum(ramp => Math.Max(0, back[ramp] - Most(ramp)));
        }
    }

    private static double Most(int ramp) => ramp == 0 ? AllowedGrey : Allowed;

    // The greys; then ramps whose tint comes and goes between black and white, in two ways.
    private static Lab Colour(int ramp, double x)
    {
        if (ramp == 0)
        {
            return new(100 * x, 0, 0);
        }

        var (k, sine) = Math.DivRem(ramp - 1, 2);
        var chroma = Chromas[k / Hues] * (sine == 1 ? Math.Sin(Math.PI * x) : 4 * x * (1 - x));
        var (sin, cos) = Math.SinCos(((k % Hues) + (k / Hues * 0.37)) * Math.Tau / Hues);
        return new(100 * x, chroma * cos, chroma * sin);
    }

    // How far a ramp steps back at the most, from where to where.
    private (double Back, int From, int At) Worst(double[] values, int ramp, double[] lightness)
    {
        Span<double> device = stackalloc double[4];
        var (back, from, at, top) = (0.0, 0, 0, 0);
        for (var i = 0; i < Places; i++)
        {
            Device(values, (ramp * Places) + i, device);
            lightness[i] = Lightness(device);
            top = lightness[i] > lightness[top] ? i : top;
            if (lightness[top] - lightness[i] > back)
            {
                (back, from, at) = (lightness[top] - lightness[i], top, i);
            }
        }

        return (back, from, at);
    }

    // Draws two places together until the one prints no darker than the other: both by as much, so that nothing drifts, and in the nodes by the least
    // that does it.
    private void Draw(double[] values, int from, int at, double allowed, double step)
    {
        Span<double> lighter = stackalloc double[4];
        Span<double> darker = stackalloc double[4];
        Span<double> one = stackalloc double[4];
        Span<double> other = stackalloc double[4];
        Device(values, from, lighter);
        Device(values, at, darker);
        var part = 0.0;
        for (var t = 1; t <= Tries; t++)
        {
            part = (double)t / Tries;
            for (var c = 0; c < channels; c++)
            {
                var half = part / 2 * (lighter[c] - darker[c]);
                (one[c], other[c]) = (lighter[c] - half, darker[c] + half);
            }

            if (Lightness(one) - Lightness(other) <= allowed)
            {
                break;
            }
        }

        Span<int> moved = stackalloc int[2 * Corners];
        Span<double> by = stackalloc double[2 * Corners];
        var (count, squares) = (0, 0.0);
        Note(at, 1, moved, by, ref count);
        Note(from, -1, moved, by, ref count);
        foreach (var weight in by[..count])
        {
            squares += weight * weight;
        }

        for (var k = 0; k < count; k++)
        {
            var node = values.AsSpan(moved[k] * channels, channels);
            for (var c = 0; c < channels; c++)
            {
                node[c] = Math.Clamp(node[c] + (by[k] / (squares + Damping) * step * part * (lighter[c] - darker[c])), range.Low, range.High);
            }

            KeepLimit(node);
        }
    }

    private void Note(int place, int sign, Span<int> moved, Span<double> by, ref int count)
    {
        for (var k = place * Corners; k < (place + 1) * Corners; k++)
        {
            var known = moved[..count].IndexOf(nodes[k]);
            if (known < 0)
            {
                known = count++;
                (moved[known], by[known]) = (nodes[k], 0);
            }

            by[known] += sign * weights[k];
        }
    }

    private void KeepLimit(Span<double> node)
    {
        if (channels == 4 && node[0] + node[1] + node[2] + node[3] is var sum && sum > limit)
        {
            var part = (limit - node[3]) / (sum - node[3]);
            (node[0], node[1], node[2]) = (node[0] * part, node[1] * part, node[2] * part);
        }
    }

    private void Device(double[] values, int place, Span<double> device)
    {
        device.Clear();
        for (var k = place * Corners; k < (place + 1) * Corners; k++)
        {
            for (var c = 0; c < channels; c++)
            {
                device[c] += weights[k] * values[(nodes[k] * channels) + c];
            }
        }
    }

    // As the table's output curves clip.
    private double Lightness(ReadOnlySpan<double> device)
    {
        Span<double> clipped = stackalloc double[4];
        Span<double> lab = stackalloc double[3];
        for (var c = 0; c < channels; c++)
        {
            clipped[c] = Math.Clamp(device[c], 0, 1);
        }

        lattice.Evaluate(clipped[..channels], lab);
        return lab[0];
    }
}
