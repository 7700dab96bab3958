using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Profiles;

/// <summary>A profile for one channel: grey device values in equal steps of lightness.</summary>
internal static class GreyProfile
{
    private const int Levels = 256;

    public static MadeProfile Make(IPrinterModel model, ProfileOptions options)
    {
        var media = new MediaRelative(ProfileMaker.Paper(model));
        var device = Enumerable.Range(0, Levels).Select(i => i / (Levels - 1.0)).ToArray();
        var lab = new double[Levels * 3];
        model.Predict(device, lab);
        for (var i = 0; i < Levels; i++)
        {
            var relative = media.ToRelative(new(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2]));
            // A reading's noise never turns the ramp round.
            (lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2]) =
                (i == 0 ? relative.L : Math.Max(relative.L, lab[3 * (i - 1)]), relative.A, relative.B);
        }

        (lab[^3], lab[^2], lab[^1]) = (100, 0, 0);
        var lattice = new DeviceLattice([Levels], lab);
        var black = lab[0];
        var toPcs = ToPcs(lab, l => l);
        // The printer's black stands for the reference medium's, or for none.
        var isV4 = options.Version == IccVersion.V4;
        var from = isV4 ? 0.0030911 : 0;
        var blackY = new Lab(black, 0, 0).ToXyz(Xyz.PcsD50).Y / 100;
        double ToPrint(double l) => Scaled(l, y => blackY + ((y - from) * (1 - blackY) / (1 - from)));
        double FromPrint(double l) => Scaled(l, y => from + ((y - blackY) * (1 - from) / (1 - blackY)));
        var perceptual = ToPcs(lab, FromPrint);
        var drawnIn = FromPcs(lab, ToPrint);
        var white = media.White;
        var profile = new PrinterProfile
        {
            Space = ColourSpace.Grey,
            Created = options.Created,
            Description = [new("en", "GB", options.Name)],
            Copyright = [new("en", "GB", options.Rights)],
            MediaWhite = new(white.X / 100, white.Y / 100, white.Z / 100),
            MediaBlack = ProfileMaker.Black(media, new(lab[0], lab[1], lab[2])),
            A2B0 = perceptual,
            A2B1 = toPcs,
            A2B2 = perceptual,
            B2A0 = drawnIn,
            B2A1 = FromPcs(lab, l => l),
            B2A2 = drawnIn,
            Gamut = GamutTable(black),
            PerceptualReferenceMedium = isV4,
            CharTarget = options.Measurements,
            Matte = options.Matte,
            Intent = RenderingIntent.RelativeColorimetric,
        };
        return new(IccProfileWriter.Write(profile, options.Version), lattice, media);
    }

    private static double Scaled(double lightness, Func<double, double> scale)
    {
        var y = scale(new Lab(lightness, 0, 0).ToXyz(Xyz.PcsD50).Y / 100);
        return new Xyz(Xyz.PcsD50.X * y, Xyz.PcsD50.Y * y, Xyz.PcsD50.Z * y).ToLab(Xyz.PcsD50).L;
    }

    private static LutTable ToPcs(double[] lab, Func<double, double> fromPrint)
    {
        var codes = new ushort[lab.Length == 0 ? 0 : Levels / 2 * 3 + 3];
        // 129 nodes: the most a grid of two bytes a channel needs for a ramp of 256.
        for (var i = 0; i <= Levels / 2; i++)
        {
            var at = 3 * Math.Min(2 * i, Levels - 1);
            codes[3 * i] = Code(fromPrint(lab[at]) / 100);
            codes[(3 * i) + 1] = Code((lab[at + 1] + 128) / 255);
            codes[(3 * i) + 2] = Code((lab[at + 2] + 128) / 255);
        }

        return new([Ramp()], new Clut([(Levels / 2) + 1], 3, codes), [ToneCurve.Identity, ToneCurve.Identity, ToneCurve.Identity]);
    }

    // Nodes lie at every second level, but the last at 255 of 256.
    private static SampledCurve Ramp() => SampledCurve.Of(4_081, x => x * 255 <= 254 ? x * 255 / 256 : (254 + ((x * 255) - 254) * 2) / 256);

    private static LutTable FromPcs(double[] lab, Func<double, double> toPrint)
    {
        // All the work is in the curve of L*; the table only hands it through.
        var curve = SampledCurve.Of(4_081, x => Invert(lab, toPrint(100 * x)));
        var codes = new ushort[8];
        codes.AsSpan(4).Fill(ushort.MaxValue);
        return new([curve, ToneCurve.Identity, ToneCurve.Identity], new Clut([2, 2, 2], 1, codes), [ToneCurve.Identity]);
    }

    private static double Invert(double[] lab, double lightness)
    {
        var i = 0;
        while (i < Levels - 2 && lab[3 * (i + 1)] < lightness)
        {
            i++;
        }

        var (low, high) = (lab[3 * i], lab[3 * (i + 1)]);
        var part = high > low ? Math.Clamp((lightness - low) / (high - low), 0, 1) : 0;
        return (i + part) / (Levels - 1);
    }

    // Only greys between the black and the paper can be printed.
    private static LutTable GamutTable(double black)
    {
        const int points = 33;
        var codes = new ushort[points * points * points];
        for (var i = 0; i < codes.Length; i++)
        {
            var lightness = 100.0 * (i / (points * points)) / (points - 1);
            var off = double.Hypot(i / points % points - 16, i % points - 16) + Math.Max(0, black - lightness);
            codes[i] = Code((off - 1) / 20);
        }

        return new([ToneCurve.Identity, ToneCurve.Identity, ToneCurve.Identity], new Clut([points, points, points], 1, codes), [ToneCurve.Identity]);
    }

    private static ushort Code(double value) => (ushort)Math.Round(65535 * Math.Clamp(value, 0, 1));
}
