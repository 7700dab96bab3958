using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Profiles;

/// <summary>Keeps the ramp of greys rising: of a table from the connection space, the nodes where a* = b* = 0.</summary>
/// <remarks>
/// Near black a printer has no neutral. There each node asks for the nearest colour, and the way from one to the next can
/// lead through a lighter or a darker one: a smooth ramp bent back by up to half an L* on a matte paper. The nodes are
/// walked from paper to black; one whose segment bends back gives way to the best of those that do not.
/// </remarks>
internal sealed class NeutralAxis(PcsBox box, DeviceLattice lattice, double[] darkest)
{
    private const int Within = 24;     // looks between two nodes
    private const double Flat = 0.002; // L*: less than a code of the table
    private const int Tries = 16;

    private readonly int channels = lattice.Channels;

    /// <summary>Mends the nodes of a table in place.</summary>
    /// <param name="nodes">Device values of all nodes, before the output curves clip them.</param>
    /// <param name="toPrint">From the connection space to the colour that is to be printed.</param>
    public void Straighten(double[] nodes, Func<Lab, Lab> toPrint)
    {
        var a = Enumerable.Range(0, box.Points).MinBy(i => Math.Abs(box.At(1, i)));
        var b = Enumerable.Range(0, box.Points).MinBy(i => Math.Abs(box.At(2, i)));
        for (var l = box.Points - 2; l >= 0; l--)
        {
            var above = Node(nodes, l + 1, a, b).ToArray();
            var here = Node(nodes, l, a, b);
            if (Falls(above, here))
            {
                continue;
            }

            var wanted = toPrint(new(box.At(0, l), 0, 0));
            Better(above, here.ToArray(), wanted).CopyTo(here);
        }
    }

    private Span<double> Node(double[] nodes, int l, int a, int b) =>
        nodes.AsSpan(((((l * box.Points) + a) * box.Points) + b) * channels, channels);

    // Of the values between the node above, this one and the darkest: the nearest colour that the ramp falls to.
    private double[] Better(double[] above, double[] here, Lab wanted)
    {
        var (best, least) = (above, double.MaxValue);
        foreach (var towards in (double[][])[here, darkest])
        {
            for (var t = 0; t <= Tries; t++)
            {
                var part = (double)t / Tries;
                double[] there = [.. above.Zip(towards, (x, y) => x + (part * (y - x)))];
                var off = Off(there, wanted);
                if (off < least && Falls(above, there))
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

    private bool Falls(ReadOnlySpan<double> above, ReadOnlySpan<double> here)
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
            if (lab[0] > last + Flat)
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
