using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Profiles;

/// <summary>A profile that was made, and the condition it describes.</summary>
/// <param name="File">The ICC profile.</param>
/// <param name="Lattice">Device values to colours relative to the paper, as its tables have them.</param>
/// <param name="Media">The paper.</param>
public sealed record MadeProfile(byte[] File, DeviceLattice Lattice, MediaRelative Media);

/// <summary>Makes ICC profiles from a model of a printing condition.</summary>
public static class ProfileMaker
{
    private const int FitSamples = 60_000;
    private const double FitPull = 0.05;
    private const double FitStiffness = 0.02;
    private const double OnFaces = 0.2; // of the samples' channels at either end: charts have many patches there, and nothing reaches beyond
    private const double InkSpare = 0.002; // under the limit: what codes and engines may round away

    // Nodes a side of the relative table from colours, which pictures are mostly printed through: there and back costs half
    // of what it does with 33, and making a profile has the time.
    private const int RelativeGrid = 45;

    private const double PerceptualKnee = 0.7;
    private const double SaturationKnee = 0.9;

    /// <summary>Makes a profile with all intents.</summary>
    /// <param name="model">What the condition prints; 1, 3 or 4 channels.</param>
    /// <param name="options">How.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="cancel">Stops it.</param>
    /// <exception cref="ArgumentException">The model has other channels, or an option is out of range.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static MadeProfile Make(IPrinterModel model, ProfileOptions options, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        var points = options.Grid ?? model.Channels switch { 1 => 33, 3 => 33, 4 => 17, _ => 0 };
        if (points is < ProfileOptions.LeastGrid or > ProfileOptions.MostGrid || options.InkLimit is < 2 or > 4)
        {
            throw new ArgumentException($"Grids have {ProfileOptions.LeastGrid} to {ProfileOptions.MostGrid} nodes, ink limits 2 to 4.", nameof(options));
        }

        if (options.BlackFrom is < 20 or > 100 || options.MostBlack is < 0.2 or > 1)
        {
            throw new ArgumentException("Black comes in from L* 20 to 100, and is .2 to 1 at most.", nameof(options));
        }

        if (model.Channels == 1)
        {
            return GreyProfile.Make(model, options);
        }

        var nodes = model.Channels == 3 && points >= DeviceNodes.OfLevels ? DeviceNodes.OnLevels()
            : DeviceNodes.Even(model.Channels == 4 ? Math.Min(points, 17) : points);
        var grid = Enumerable.Repeat(nodes.Count, model.Channels).ToArray();
        var media = new MediaRelative(Paper(model));
        var values = NodeValues(model, grid, nodes, media);
        cancel.ThrowIfCancellationRequested();
        if (nodes.IsEven)
        {
            FitBetweenNodes(model, grid, media, values);
        }

        SetPaper(model.Channels, values);
        progress?.Report(0.45);

        var toPcs = ToPcs(grid, nodes, values, v => v);
        var lattice = new DeviceLattice(grid, Decode(toPcs), nodes);
        var (darkest, blackest) = Darkest(lattice, nodes, options.InkLimit - InkSpare);
        var black = new BlackGeneration(options.BlackFrom, options.MostBlack, blackest.L);
        var inversion = new Inversion(lattice, options.InkLimit - InkSpare);
        if (model.Channels == 4)
        {
            DarkestMix.Find(lattice, options.InkLimit - InkSpare, darkest); // the darkest of four inks may be violet
        }

        var maker = new PcsToDevice(lattice, inversion, c => model.Channels == 4 ? black.For(c) : double.NaN, darkest, options.InkLimit - InkSpare, cancel);
        var pcsPoints = model.Channels == 4 ? Math.Max(points, 33) : points;
        var relativePoints = options.Grid is null ? RelativeGrid : pcsPoints;
        var box = PcsBox.Around(lattice, relativePoints);
        var off = new double[relativePoints * relativePoints * relativePoints];
        var relative = maker.Make(box, c => c, c => c, off);
        progress?.Report(0.65);

        var reach = new ChromaReach(lattice);
        var isV4 = options.Version == IccVersion.V4;
        var perceptual = new DrawIn(reach, blackest, isV4, PerceptualKnee);
        var saturation = new DrawIn(reach, blackest, fromReferenceMedium: false, SaturationKnee);
        var whole = PcsBox.Whole(pcsPoints);
        var b2a0 = maker.Make(whole, perceptual.ToPrint, perceptual.FromPrint);
        progress?.Report(0.8);
        var b2a2 = maker.Make(whole, saturation.ToPrint, saturation.FromPrint);
        progress?.Report(0.92);

        var white = media.White;
        var profile = new PrinterProfile
        {
            Space = model.Channels == 4 ? ColourSpace.Cmyk : ColourSpace.Rgb,
            Created = options.Created,
            Description = [new("en", "GB", options.Name)],
            Copyright = [new("en", "GB", options.Rights)],
            MediaWhite = new(white.X / 100, white.Y / 100, white.Z / 100),
            MediaBlack = Black(media, blackest),
            A2B0 = ToPcs(grid, nodes, values, perceptual.FromPrint),
            A2B1 = toPcs,
            A2B2 = ToPcs(grid, nodes, values, saturation.FromPrint),
            B2A0 = b2a0,
            B2A1 = relative,
            B2A2 = b2a2,
            Gamut = PcsToDevice.MakeGamut(box, off),
            PerceptualReferenceMedium = isV4,
            CharTarget = options.Measurements,
            Matte = options.Matte,
            Intent = RenderingIntent.RelativeColorimetric,
        };
        var file = IccProfileWriter.Write(profile, options.Version);
        progress?.Report(1);
        return new(file, lattice, media);
    }

    internal static Lab Paper(IPrinterModel model)
    {
        Span<double> lab = stackalloc double[3];
        Span<double> none = stackalloc double[4];
        none[..model.Channels].Fill(model.Channels == 4 ? 0 : 1);
        model.Predict(none[..model.Channels], lab);
        return new(lab[0], lab[1], lab[2]);
    }

    internal static XyzNumber Black(MediaRelative media, Lab blackest)
    {
        var black = media.ToMeasured(blackest).ToXyz(Xyz.PcsD50);
        return new(Math.Max(0, black.X / 100), Math.Max(0, black.Y / 100), Math.Max(0, black.Z / 100));
    }

    private static double[] NodeValues(IPrinterModel model, int[] grid, DeviceNodes nodes, MediaRelative media)
    {
        var count = grid.Aggregate(1, (all, n) => all * n);
        var device = new double[count * grid.Length];
        for (var i = 0; i < count; i++)
        {
            for (int c = grid.Length - 1, left = i; c >= 0; c--, left /= grid[c + 1 < grid.Length ? c + 1 : c])
            {
                device[(i * grid.Length) + c] = nodes.At(left % grid[c]);
            }
        }

        return Relative(model, device, media);
    }

    private static double[] Relative(IPrinterModel model, double[] device, MediaRelative media)
    {
        var lab = new double[device.Length / model.Channels * 3];
        model.Predict(device, lab);
        for (var i = 0; i < lab.Length; i += 3)
        {
            var relative = media.ToRelative(new(lab[i], lab[i + 1], lab[i + 2]));
            (lab[i], lab[i + 1], lab[i + 2]) = (relative.L, relative.A, relative.B);
        }

        return lab;
    }

    // So that the table, between its nodes, says what the model says there. Where nodes lie on what bends in the model they say so
    // as they are.
    private static void FitBetweenNodes(IPrinterModel model, int[] grid, MediaRelative media, double[] values)
    {
        var random = new Random(Seed: 20261124);
        var device = new double[FitSamples * grid.Length];
        var onFaces = model.Channels == 4 ? 0 : OnFaces; // mixes of four inks bend their toned ramps back further with it
        for (var i = 0; i < device.Length; i++)
        {
            device[i] = Math.Clamp((random.NextDouble() - onFaces) / (1 - (2 * onFaces)), 0, 1);
        }

        var known = Relative(model, device, media);
        var fit = new LatticeFit(grid, Interpolation.Tetrahedral, device);
        var even = Enumerable.Repeat(1.0, FitSamples).ToArray();
        var pull = Enumerable.Repeat(FitPull, values.Length / 3).ToArray();
        Parallel.For(0, 3, k =>
        {
            var one = Channel(values, k);
            fit.Correct(fit.Equations(even, FitStiffness), one, fit.InOrder(Channel(known, k)), even, pull);
            for (var i = 0; i < one.Length; i++)
            {
                values[(3 * i) + k] = one[i];
            }
        });
    }

    private static double[] Channel(double[] rows, int k) => [.. Enumerable.Range(0, rows.Length / 3).Select(i => rows[(3 * i) + k])];

    private static void SetPaper(int channels, double[] values)
    {
        var node = channels == 4 ? 0 : (values.Length / 3) - 1;
        (values[3 * node], values[(3 * node) + 1], values[(3 * node) + 2]) = (100, 0, 0);
    }

    private static LutTable ToPcs(int[] grid, DeviceNodes nodes, double[] relative, Func<Lab, Lab> fromPrint)
    {
        var codes = new ushort[relative.Length];
        Parallel.For(0, relative.Length / 3, i =>
        {
            Span<double> lab = stackalloc double[3];
            var colour = fromPrint(new(relative[3 * i], relative[(3 * i) + 1], relative[(3 * i) + 2]));
            (lab[0], lab[1], lab[2]) = (colour.L, colour.A, colour.B);
            PcsEncoding.LabV4.Encode(lab, lab);
            for (var k = 0; k < 3; k++)
            {
                codes[(3 * i) + k] = (ushort)Math.Round(65535 * Math.Clamp(lab[k], 0, 1));
            }
        });
        var curves = Enumerable.Repeat(nodes.Curve(), grid.Length).ToArray();
        return new(curves, new Clut(grid, 3, codes), [ToneCurve.Identity, ToneCurve.Identity, ToneCurve.Identity]);
    }

    private static double[] Decode(LutTable table)
    {
        var lab = new double[table.Table.Nodes.Length];
        for (var i = 0; i < lab.Length; i++)
        {
            lab[i] = table.Table.Nodes[i] / 65535.0;
        }

        for (var i = 0; i < lab.Length; i += 3)
        {
            PcsEncoding.LabV4.Decode(lab.AsSpan(i, 3), lab.AsSpan(i, 3));
        }

        return lab;
    }

    // The darkest node that the ink limit allows.
    private static (double[] Device, Lab Colour) Darkest(DeviceLattice lattice, DeviceNodes nodes, double inkLimit)
    {
        var darkest = lattice.Channels == 4 ? 0 : (lattice.Values.Length / 3) - 1;
        for (var node = 0; node < lattice.Values.Length / 3; node++)
        {
            if (lattice.Values[3 * node] < lattice.Values[3 * darkest] && (lattice.Channels != 4 || DeviceOf(node).Sum() <= inkLimit))
            {
                darkest = node;
            }
        }

        return (DeviceOf(darkest), new(lattice.Values[3 * darkest], lattice.Values[(3 * darkest) + 1], lattice.Values[(3 * darkest) + 2]));

        double[] DeviceOf(int node)
        {
            var device = new double[lattice.Channels];
            for (int c = device.Length - 1, left = node; c >= 0; c--, left /= nodes.Count)
            {
                device[c] = nodes.At(left % nodes.Count);
            }

            return device;
        }
    }
}
