using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Profiles;

/// <summary>Keeps ramps from bending back: of a table from the connection space, each column of nodes of one a* and b*.</summary>
/// <remarks>
/// Below the darkest colours each node asks for the nearest one, and the regression drives it where the samples above want
/// it. The way from one node to the next can then lead through a lighter or a darker colour: a ramp of greys bent back by
/// half an L* on a matte paper, one of dark greens by more than three. The columns are walked from paper to black; a node
/// whose segment bends back gives way to the best of those that do not.
/// </remarks>
internal sealed class FallingColumns(PcsBox box, DeviceLattice lattice, double[] darkest)
{
    private const int Within = 24;      // looks between two nodes
    private const double Flat = 0.002;  // L*: less than a code of the table, for greys

    // For toned greys, whose chroma is at most this, a step back that no eye can tell; for stronger colours, whose nodes
    // often cannot be printed as they are, one that nobody sees side by side.
    private const double Toned = 25;
    private const double BackToned = 0.02;
    private const double BackStrong = 0.5;
    private const int Tries = 16;

    private readonly int channels = lattice.Channels;

    /// <summary>Mends the nodes of a table in place.</summary>
    /// <param name="nodes">Device values of all nodes, before the output curves clip them.</param>
    /// <param name="toPrint">From the connection space to the colour that is to be printed.</param>
    /// <returns>Which nodes were mended.</returns>
    public bool[] Straighten(double[] nodes, Func<Lab, Lab> toPrint)
    {
        var mended = new bool[nodes.Length / channels];
        var black = Lightness(darkest);
        var (greyA, greyB) = (box.Zero(1), box.Zero(2));
        Parallel.For(0, box.Points * box.Points, column =>
        {
            var (a, b) = (column / box.Points, column % box.Points);
            var back = a == greyA && b == greyB ? Flat : double.Hypot(box.At(1, a), box.At(2, b)) < Toned ? BackToned : BackStrong;
            for (var l = box.Points - 2; l >= 0; l--)
            {
                var above = Node(nodes, l + 1, a, b).ToArray();
                var here = Node(nodes, l, a, b);
                var wanted = toPrint(new(box.At(0, l), box.At(1, a), box.At(2, b)));

                // Toned ramps end in one black: else one that leads aslant from one such node to another turns.
                var isBlack = wanted.L <= black && double.Hypot(wanted.A, wanted.B) < Toned;
                if (isBlack)
                {
                    darkest.CopyTo(here);
                    mended[At(l, a, b)] = true;
                }

                if (Falls(above, here, back))
                {
                    continue;
                }

                mended[At(l, a, b)] = true;
                if (isBlack && channels == 4)
                {
                    LeadToBlack(nodes, mended, toPrint, (l, a, b), back);
                }
                else
                {
                    Better(above, here.ToArray(), wanted, back).CopyTo(here);
                }
            }
        });
        return mended;
    }

    // Dark mixes of four inks can hold a hump between the last node of a column and black. From one farther up the way falls: the nodes
    // between go along it.
    private void LeadToBlack(double[] nodes, bool[] mended, Func<Lab, Lab> toPrint, (int L, int A, int B) black, double back)
    {
        var (l, a, b) = black;
        var top = l + 1;
        while (top < box.Points - 1 && !Falls(Node(nodes, top, a, b), darkest, back))
        {
            top++;
        }

        var from = Node(nodes, top, a, b).ToArray();
        for (int m = top - 1, t = 0; m > l; m--)
        {
            var wanted = toPrint(new(box.At(0, m), box.At(1, a), box.At(2, b)));
            var best = Enumerable.Range(t, Tries + 1 - t).MinBy(k => Off(On(k), wanted));
            On(best).CopyTo(Node(nodes, m, a, b));
            mended[At(m, a, b)] = true;
            t = best;
        }

        double[] On(int k) => [.. from.Zip(darkest, (x, y) => x + ((double)k / Tries * (y - x)))];
    }

    private double Lightness(ReadOnlySpan<double> device)
    {
        Span<double> lab = stackalloc double[3];
        Printed(device, lab);
        return lab[0];
    }

    private int At(int l, int a, int b) => (((l * box.Points) + a) * box.Points) + b;

    private Span<double> Node(double[] nodes, int l, int a, int b) => nodes.AsSpan(At(l, a, b) * channels, channels);

    // Of the values between the node above, this one and the darkest: the nearest colour that the ramp falls to.
    private double[] Better(double[] above, double[] here, Lab wanted, double back)
    {
        var (best, least) = (above, double.MaxValue);
        foreach (var towards in (double[][])[here, darkest])
        {
            for (var t = 0; t <= Tries; t++)
            {
                var part = (double)t / Tries;
                double[] there = [.. above.Zip(towards, (x, y) => x + (part * (y - x)))];
                var off = Off(there, wanted);
                if (off < least && Falls(above, there, back))
                {
                    (best, least) = (there, off);
                }
            }
        }

        return best;
    }

    private double Off(double[] device, Lab wanted)
    {
        Span<double> lab = stackalloc double[3];
        Printed(device, lab);
        var (l, a, b) = (lab[0] - wanted.L, lab[1] - wanted.A, lab[2] - wanted.B);
        return (l * l) + (((a * a) + (b * b)) / 4); // as the nearest colour is found: chroma counts half
    }

    private bool Falls(ReadOnlySpan<double> above, ReadOnlySpan<double> here, double back)
    {
        Span<double> device = stackalloc double[4];
        Span<double> lab = stackalloc double[3];
        var last = double.MaxValue;
        for (var k = 0; k <= Within; k++)
        {
            for (var c = 0; c < channels; c++)
            {
                device[c] = above[c] + ((here[c] - above[c]) * k / Within);
            }

            Printed(device[..channels], lab);
            if (lab[0] > last + back)
            {
                return false;
            }

            last = Math.Min(last, lab[0]);
        }

        return true;
    }

    // As the table's output curves clip.
    private void Printed(ReadOnlySpan<double> device, Span<double> lab)
    {
        Span<double> clipped = stackalloc double[4];
        for (var c = 0; c < channels; c++)
        {
            clipped[c] = Math.Clamp(device[c], 0, 1);
        }

        lattice.Evaluate(clipped[..channels], lab);
    }
}
