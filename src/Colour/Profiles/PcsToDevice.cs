using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>Makes the tables from the connection space to device values.</summary>
internal sealed class PcsToDevice(DeviceLattice lattice, Inversion inversion, Func<Lab, double> black, CancellationToken cancel)
{
    private const int Samples = 120_000;
    private const int NeutralSamples = 400;
    private const double NeutralWeight = 25;
    private const double Pull = 0.02;
    private const double Stiffness = 0.01;
    private const double OutOfGamutFrom = 1.0; // L*a*b*: nearer than this is not worth a warning
    private const double OutOfGamutFull = 20;

    // Nodes may lie beyond 0 to 1, and the output curves clip: far for three channels, so that the surface of the gamut
    // is met; for four by one entry, so that the paper takes no ink in spite of the codes' last bit.
    private const int ClipEntries = 1_537;
    private const double Room = 0.25;
    private const double LittleRoom = 1.0 / (ClipEntries - 2);
    private const double White = 0.5 * LittleRoom;

    private readonly int channels = lattice.Channels;

    private readonly double below = lattice.Channels == 3 ? Room : LittleRoom;

    private readonly double above = lattice.Channels == 3 ? Room : 0;

    private bool MayGoOver => channels == 3;

    /// <summary>A table for an intent.</summary>
    /// <param name="box">What it covers.</param>
    /// <param name="toPrint">From the connection space to the colour that is to be printed.</param>
    /// <param name="fromPrint">The way back.</param>
    public LutTable Make(PcsBox box, Func<Lab, Lab> toPrint, Func<Lab, Lab> fromPrint)
    {
        var n = box.Points;
        int[] grid = [n, n, n];
        var nodes = new double[n * n * n * channels];
        Parallel.For(0, n * n * n, new ParallelOptions { CancellationToken = cancel }, node =>
        {
            var wanted = toPrint(NodeColour(box, node));
            inversion.Find(wanted, MayGoOver, black(wanted), nodes.AsSpan(node * channels, channels));
        });
        if (MayGoOver)
        {
            Regress(box, grid, nodes, fromPrint);
        }

        new NeutralAxis(box, lattice, inversion.Darkest()).Straighten(nodes, toPrint);
        SetPaper(box, nodes);
        return new(box.Curves(), new Clut(grid, channels, Encode(nodes)), OutputCurves());
    }

    /// <summary>From the connection space to 0 where a colour can be printed, and more the farther it is from that.</summary>
    public LutTable MakeGamut(PcsBox box)
    {
        var n = box.Points;
        var nodes = new ushort[n * n * n];
        Parallel.For(0, nodes.Length, new ParallelOptions { CancellationToken = cancel }, node =>
        {
            Span<double> device = stackalloc double[4];
            var wanted = NodeColour(box, node);
            var off = inversion.Find(wanted, mayGoOver: false, black(wanted), device[..channels]);
            nodes[node] = (ushort)(65535 * Math.Clamp((off - OutOfGamutFrom) / OutOfGamutFull, 0, 1));
        });
        return new(box.Curves(), new Clut([n, n, n], 1, nodes), [ToneCurve.Identity]);
    }

    private static Lab NodeColour(PcsBox box, int node) =>
        new(box.At(0, node / (box.Points * box.Points)), box.At(1, node / box.Points % box.Points), box.At(2, node % box.Points));

    // Engines go from Lab to device between all eight corners of a cell: the regression does too.
    private void Regress(PcsBox box, int[] grid, double[] nodes, Func<Lab, Lab> fromPrint)
    {
        var (device, colours, weights) = KnownColours();
        var points = new double[colours.Length * 3];
        for (var i = 0; i < colours.Length; i++)
        {
            var at = fromPrint(colours[i]);
            if (!box.Holds(at))
            {
                Array.Clear(weights[i]); // it would be known at the wrong place
            }

            (points[3 * i], points[(3 * i) + 1], points[(3 * i) + 2]) = (box.Along(0, at.L), box.Along(1, at.A), box.Along(2, at.B));
        }

        cancel.ThrowIfCancellationRequested();
        var fit = new LatticeFit(grid, Interpolation.Multilinear, points);
        Parallel.For(0, channels, c =>
        {
            var values = Take(nodes, c);
            fit.Correct(values, Take(device, c), [.. weights.Select(w => w[c])], Pull, Stiffness);
            for (var i = 0; i < values.Length; i++)
            {
                nodes[(i * channels) + c] = Math.Clamp(values[i], -below, 1 + above);
            }
        });
    }

    // Device values all over the cube and on its surface, with the colours they print; and the greys.
    private (double[] Device, Lab[] Colours, double[][] Weights) KnownColours()
    {
        var random = new Random(Seed: 20261125);
        var count = Samples + NeutralSamples;
        var device = new double[count * channels];
        var weights = new double[count][];
        for (var i = 0; i < Samples * channels; i++)
        {
            // A third of the values lie on the surface of the cube or hard by it.
            var at = random.NextDouble();
            device[i] = at < 0.1 ? 0 : at > 0.9 ? 1 : (at - 0.1) / 0.8;
        }

        var colours = new Lab[count];
        Parallel.For(0, NeutralSamples, k =>
        {
            var blackest = lattice.Values.ToArray().Where((_, i) => i % 3 == 0).Min();
            var grey = new Lab(blackest + ((100 - blackest) * k / (NeutralSamples - 1)), 0, 0);
            inversion.Find(grey, mayGoOver: false, black(grey), device.AsSpan((Samples + k) * channels, channels));
        });
        Parallel.For(0, count, i =>
        {
            Span<double> lab = stackalloc double[3];
            Span<double> slopes = stackalloc double[12];
            var at = device.AsSpan(i * channels, channels);
            lattice.Evaluate(at, lab);
            colours[i] = new(lab[0], lab[1], lab[2]);
            lattice.Slopes(at, slopes);
            weights[i] = new double[channels];
            for (var c = 0; c < channels; c++)
            {
                // What an error in this channel does to the colour, against 100 units over the whole channel.
                var slope = slopes.Slice(3 * c, 3);
                var moves = ((slope[0] * slope[0]) + (slope[1] * slope[1]) + (slope[2] * slope[2])) / 10_000;
                weights[i][c] = Math.Clamp(moves, 0.05, 4) * (i >= Samples ? NeutralWeight : 1);
            }
        });
        return (device, colours, weights);
    }

    // The paper's white is no ink at all, exactly: the node at the top of the neutral axis.
    private void SetPaper(PcsBox box, double[] nodes)
    {
        var top = box.Points - 1;
        var a = Enumerable.Range(0, box.Points).MinBy(i => Math.Abs(box.At(1, i)));
        var b = Enumerable.Range(0, box.Points).MinBy(i => Math.Abs(box.At(2, i)));
        var node = (((top * box.Points) + a) * box.Points) + b;
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

    private ushort[] Encode(double[] nodes)
    {
        var codes = new ushort[nodes.Length];
        for (var i = 0; i < nodes.Length; i++)
        {
            codes[i] = (ushort)Math.Round(65535 * Math.Clamp((nodes[i] + below) / (1 + below + above), 0, 1));
        }

        return codes;
    }

    private ToneCurve[] OutputCurves() => [.. Enumerable.Range(0, channels).Select(_ =>
        SampledCurve.Of(ClipEntries, x => Math.Clamp((x * (1 + below + above)) - below, 0, 1)))];
}
