using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>Makes the tables from the connection space to device values.</summary>
/// <param name="lattice">The printing condition, relative to the paper.</param>
/// <param name="inversion">Its way back.</param>
/// <param name="black">How much black a colour takes; for four channels.</param>
/// <param name="darkest">The black that ramps end in.</param>
/// <param name="inkLimit">The most ink of all channels together, 1 a channel; CMYK only.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class PcsToDevice(DeviceLattice lattice, Inversion inversion, Func<Lab, double> black, double[] darkest, double inkLimit, CancellationToken cancel)
{
    private const double Pull = 0.02;
    private const double Stiffness = 0.01;
    private const double OutOfGamutFrom = 1.0; // L*a*b*: nearer than this is not worth a warning
    private const double OutOfGamutFull = 20;

    // Nodes may lie beyond 0 to 1 by this much, and the output curves clip: so the surface of the gamut is met between
    // nodes. The curve bends on two of its entries, 256 and 1,280 of 1,536.
    private const int ClipEntries = 1_537;
    private const double Room = 0.25;
    private const double White = Room / (ClipEntries - 1);

    // A sample that is off by this much (dE00) or more counts for more from the second fit on.
    private const double FarOff = 0.08;
    private const double MostHeed = 12;

    // How strongly a node that was put right is held there, and how often the others are fitted to the samples again. Each
    // time a few more give way; what gives way after the last fit is off the samples. Where colours are drawn in, nobody
    // goes there and back, and one more fit bends the toned shadows.
    private const double HeldPull = 20;
    private const int FitsAround = 3;
    private const int FitsAroundDrawnIn = 1;

    private readonly int channels = lattice.Channels;

    private readonly Lazy<KnownColours> known = new(() => KnownColours.Of(lattice, inversion));

    /// <summary>A table for an intent.</summary>
    /// <param name="box">What it covers.</param>
    /// <param name="toPrint">From the connection space to the colour that is to be printed.</param>
    /// <param name="fromPrint">The way back.</param>
    /// <param name="off">Filled with how far off each node's colour is when printed, if given.</param>
    public LutTable Make(PcsBox box, Func<Lab, Lab> toPrint, Func<Lab, Lab> fromPrint, double[]? off = null)
    {
        var n = box.Points;
        int[] grid = [n, n, n];
        var nodes = new double[n * n * n * channels];
        Parallel.For(0, n * n * n, new ParallelOptions { CancellationToken = cancel }, node =>
        {
            var wanted = toPrint(NodeColour(box, node));
            inversion.Find(wanted, mayGoOver: channels == 3, black(wanted), nodes.AsSpan(node * channels, channels));
            if (off is not null)
            {
                off[node] = Off(nodes.AsSpan(node * channels, channels), wanted);
            }
        });
        var columns = new FallingColumns(box, lattice, darkest);
        if (channels == 3)
        {
            Regress(box, grid, nodes, columns, toPrint, fromPrint, off is null ? FitsAroundDrawnIn : FitsAround);
        }

        columns.Straighten(nodes, toPrint);
        new RisingRamps(box, lattice, channels == 3 ? (-Room, 1 + Room) : (0, 1), inkLimit).Straighten(nodes);
        SetPaper(box, nodes);
        return new(box.Curves(), new Clut(grid, channels, Encode(nodes)), OutputCurves());
    }

    /// <summary>From the connection space to 0 where a colour can be printed, and more the farther it is from that.</summary>
    /// <param name="box">What it covers.</param>
    /// <param name="off">How far off each of its nodes is when printed.</param>
    public static LutTable MakeGamut(PcsBox box, double[] off)
    {
        ushort[] nodes = [.. off.Select(o => (ushort)(65535 * Math.Clamp((o - OutOfGamutFrom) / OutOfGamutFull, 0, 1)))];
        return new(box.Curves(), new Clut([box.Points, box.Points, box.Points], 1, nodes), [ToneCurve.Identity]);
    }

    private double Off(ReadOnlySpan<double> device, Lab wanted)
    {
        Span<double> lab = stackalloc double[3];
        Span<double> clipped = stackalloc double[4];
        for (var c = 0; c < channels; c++)
        {
            clipped[c] = Math.Clamp(device[c], 0, 1);
        }

        lattice.Evaluate(clipped[..channels], lab);
        var (l, a, b) = (lab[0] - wanted.L, lab[1] - wanted.A, lab[2] - wanted.B);
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }

    private static Lab NodeColour(PcsBox box, int node) =>
        new(box.At(0, node / (box.Points * box.Points)), box.At(1, node / box.Points % box.Points), box.At(2, node % box.Points));

    // Engines go from Lab to device between all eight corners of a cell: the regression does too.
    private void Regress(PcsBox box, int[] grid, double[] nodes, FallingColumns columns, Func<Lab, Lab> toPrint, Func<Lab, Lab> fromPrint, int fitsAround)
    {
        var (device, colours, importance) = known.Value;
        var weights = Enumerable.Range(0, channels).Select(c => Take(importance, c)).ToArray();
        var points = new double[colours.Length * 3];
        for (var i = 0; i < colours.Length; i++)
        {
            var at = fromPrint(colours[i]);
            if (!box.Holds(at))
            {
                Array.ForEach(weights, w => w[i] = 0); // it would be known at the wrong place
            }

            (points[3 * i], points[(3 * i) + 1], points[(3 * i) + 2]) = (box.Along(0, at.L), box.Along(1, at.A), box.Along(2, at.B));
        }

        cancel.ThrowIfCancellationRequested();
        var fit = new LatticeFit(grid, Interpolation.Multilinear, points);
        weights = [.. weights.Select(fit.InOrder)];
        var targets = Enumerable.Range(0, channels).Select(c => fit.InOrder(Take(device, c))).ToArray();
        var values = Enumerable.Range(0, channels).Select(c => Take(nodes, c)).ToArray();
        var pull = Enumerable.Repeat(Pull, nodes.Length / channels).ToArray();
        var equations = new NodeMatrix[channels];
        Form();
        Correct();
        Heed(fit, values, fit.InOrder(colours), weights);
        Form();
        for (var fits = 0; fits < fitsAround; fits++)
        {
            Hold(columns, values, pull, toPrint);
            Correct();
        }

        Together(values).CopyTo(nodes, 0);

        void Form() => Parallel.For(0, channels, c => equations[c] = fit.Equations(weights[c], Stiffness));

        void Correct() => Parallel.For(0, channels, c =>
        {
            fit.Correct(equations[c], values[c], targets[c], weights[c], pull);
            for (var i = 0; i < values[c].Length; i++)
            {
                values[c][i] = Math.Clamp(values[c][i], -Room, 1 + Room);
            }
        });
    }

    // Colours that are still far off count for more the second time: least squares alone leaves a few of them.
    private void Heed(LatticeFit fit, double[][] values, Lab[] colours, double[][] weights) => Parallel.For(0, colours.Length, i =>
    {
        Span<double> lab = stackalloc double[3];
        Span<double> device = stackalloc double[4];
        for (var c = 0; c < channels; c++)
        {
            device[c] = Math.Clamp(fit.At(values[c], i), 0, 1);
        }

        lattice.Evaluate(device[..channels], lab);
        var off = CieDe2000.Between(new(lab[0], lab[1], lab[2]), colours[i]).Value;
        var more = Math.Clamp(off / FarOff, 1, MostHeed);
        for (var c = 0; c < channels; c++)
        {
            weights[c][i] *= more;
        }
    });

    // Nodes beyond the gamut go where the samples near its surface drive them. One that bends a ramp back is put right
    // and held there, and the others fit the samples without it.
    private void Hold(FallingColumns columns, double[][] values, double[] pull, Func<Lab, Lab> toPrint)
    {
        var nodes = Together(values);
        var mended = columns.Straighten(nodes, toPrint);
        for (var node = 0; node < pull.Length; node++)
        {
            pull[node] = mended[node] ? HeldPull : pull[node]; // once held, it stays: else it goes back and forth
            for (var c = 0; c < channels; c++)
            {
                values[c][node] = nodes[(node * channels) + c];
            }
        }
    }

    private double[] Together(double[][] values)
    {
        var nodes = new double[values[0].Length * channels];
        for (var i = 0; i < nodes.Length; i++)
        {
            nodes[i] = values[i % channels][i / channels];
        }

        return nodes;
    }

    // The paper's white is no ink at all, exactly: the node at the top of the neutral axis.
    private void SetPaper(PcsBox box, double[] nodes)
    {
        var top = box.Points - 1;
        var node = (((top * box.Points) + box.Zero(1)) * box.Points) + box.Zero(2);
        nodes.AsSpan(node * channels, channels).Fill(channels == 4 ? -White : 1 + White);
    }

    private double[] Take(double[] rows, int channel)
    {
        var values = new double[rows.Length / channels];
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = rows[(i * channels) + channel];
        }

        return values;
    }

    private static ushort[] Encode(double[] nodes)
    {
        var codes = new ushort[nodes.Length];
        for (var i = 0; i < nodes.Length; i++)
        {
            codes[i] = (ushort)Math.Round(65535 * Math.Clamp((nodes[i] + Room) / (1 + (2 * Room)), 0, 1));
        }

        return codes;
    }

    private ToneCurve[] OutputCurves() => [.. Enumerable.Range(0, channels).Select(_ =>
        SampledCurve.Of(ClipEntries, x => Math.Clamp((x * (1 + (2 * Room))) - Room, 0, 1)))];
}
