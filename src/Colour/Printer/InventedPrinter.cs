using System.Collections.Immutable;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>An invented paper, by smooth functions.</summary>
public sealed record InventedPaper
{
    /// <summary>Reflectance of the base far from its tint, 0 to 1.</summary>
    public double White { get; init; } = 0.9;

    /// <summary>How much of the blue light the bare base swallows, 0 (clean) to .3 (cream).</summary>
    public double Warmth { get; init; } = 0.05;

    /// <summary>Optical brightener: the reflectance that its glow adds at its peak under M1, 0 to .3.</summary>
    public double Brightener { get; init; }

    /// <summary>What the surface throws back before light meets ink: .003 on a gloss, .02 on a matte. It bounds the D-max.</summary>
    public double Surface { get; init; } = 0.01;

    /// <summary>How strongly ink stands on the coat, 1 on an ordinary one.</summary>
    public double InkTake { get; init; } = 1;

    /// <summary>How far dots grow at half coverage, 0 to .2.</summary>
    public double Gain { get; init; } = 0.12;

    /// <summary>Yule and Nielsen's n of the coat, 1 to 3.</summary>
    public double N { get; init; } = 1.8;
}

/// <summary>How far a printing condition has moved since it was proved.</summary>
/// <param name="PaperTint">More blue light swallowed by the paper, as <see cref="InventedPaper.Warmth"/> counts it.</param>
/// <param name="CyanGain">More growth of the cyan dots at half coverage: .03 turns 62 % into 65 %.</param>
/// <param name="MagentaGain">The same of magenta.</param>
/// <param name="YellowGain">The same of yellow.</param>
/// <param name="BlackGain">The same of black.</param>
/// <param name="AllInk">Density of all solid inks, more by this part: .05 for 5 % more.</param>
/// <param name="BlackInk">Density of the solid black alone, more by this part: −.3 for a black that does not belong on the coat.</param>
public sealed record PrinterDrift(
    double PaperTint = 0, double CyanGain = 0, double MagentaGain = 0, double YellowGain = 0, double BlackGain = 0, double AllInk = 0, double BlackInk = 0)
{
    /// <summary>Nothing has moved.</summary>
    public static PrinterDrift None { get; } = new();
}

/// <summary>Makes printers that do not exist, to try the room's tools on: no measurement of a real product is behind a number here.</summary>
public static class InventedPrinter
{
    private const double StartNm = 380;
    private const double StepNm = 10;
    private const int Bands = 36;
    private const double Trapping = 0.92; // of an ink on another
    private const double GlowCentre = 438;
    private const double GlowWidth = 20;

    /// <summary>A printer with pigment or dye inks on a paper, as it is read under a light.</summary>
    /// <param name="paper">What it prints on.</param>
    /// <param name="pigment">Pigment inks; otherwise dye, which is purer.</param>
    /// <param name="channels">1 grey, 3 RGB, 4 CMYK.</param>
    /// <param name="drift">How far it has moved; none if not given.</param>
    /// <param name="condition">How its prints are read: under M2 and M3 brightener does not glow, under M0 less than under M1.</param>
    /// <exception cref="ArgumentException">A number is out of its range.</exception>
    public static NeugebauerPrinter On(
        InventedPaper paper, bool pigment, int channels = 3, PrinterDrift? drift = null, MCondition condition = MCondition.M1)
    {
        drift ??= PrinterDrift.None;
        var primaries = Enumerable.Range(0, NeugebauerPrinter.Overprints).Select(o => new Spectrum(
            StartNm, StepNm, [.. Enumerable.Range(0, Bands).Select(b => Reflectance(paper, pigment, drift, condition, o, StartNm + (b * StepNm)))]));
        ImmutableArray<double> gain =
        [
            paper.Gain + drift.CyanGain, paper.Gain + drift.MagentaGain, paper.Gain + drift.YellowGain, paper.Gain + drift.BlackGain,
        ];
        return new(channels, [.. primaries], gain, paper.N);
    }

    /// <summary>Prints a chart and reads it: spectra with the noise of printer and instrument.</summary>
    /// <param name="printer">What prints.</param>
    /// <param name="device">Device values of the patches, in chart order.</param>
    /// <param name="seed">The same seed gives the same readings.</param>
    /// <param name="noise">Standard deviation of the reflectance, as a part of it: .005 is a quiet room, about .15 dE00.</param>
    /// <param name="condition">What the readings say they were lit by; the printer must have been made for it.</param>
    public static MeasurementSet Read(
        NeugebauerPrinter printer, IReadOnlyList<double[]> device, int seed, double noise = 0.005, MCondition condition = MCondition.M1)
    {
        var random = new Random(seed);
        var space = printer.Channels switch { 1 => DeviceSpace.Grey, 3 => DeviceSpace.Rgb, _ => DeviceSpace.Cmyk };
        var patches = device.Select((values, i) =>
        {
            var clean = printer.Print(values);
            var (level, slope) = (noise * Normal(random), noise * Normal(random) / 2);
            var read = clean with
            {
                Values = [.. clean.Values.Select((r, k) => Math.Max(0, (r * (1 + level + (slope * ((2.0 * k / (Bands - 1)) - 1)))) + (noise * 0.02 * Normal(random))))],
            };
            return new Patch((i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), [.. values], TristimulusWeights.D50.ToLab(read), read);
        });
        return new(space, printer.Channels, condition, [.. patches]);
    }

    private static double Reflectance(InventedPaper paper, bool pigment, PrinterDrift drift, MCondition condition, int overprint, double nm)
    {
        var density = Density(pigment, overprint, nm, drift.BlackInk) * paper.InkTake * (1 + drift.AllInk);
        var tint = (paper.Warmth + drift.PaperTint) * Math.Exp(-(nm - StartNm) / 75);
        var brightened = paper.Brightener > 0 ? 0.35 * Step(nm, 398, -7) : 0; // what takes up ultraviolet takes some violet too
        var body = paper.White * (1 - tint) * (1 - brightened);
        var ultraviolet = condition switch { MCondition.M2 or MCondition.M3 => 0, MCondition.M0 => 0.75, _ => 1.0 };
        var through = Math.Pow(10, -density);
        // The light that makes it glow passes the ink in the near ultraviolet, the glow passes it again where it shines.
        var glow = ultraviolet * paper.Brightener * Bell(nm, GlowCentre, GlowWidth)
            * Math.Pow(10, -Density(pigment, overprint, StartNm) * paper.InkTake * 0.5) * Math.Sqrt(through);
        return paper.Surface + ((body - paper.Surface) * through) + glow;
    }

    // Overprinted inks add their densities, each after the first a little less.
    private static double Density(bool pigment, int overprint, double nm, double moreBlack = 0)
    {
        var (sum, before) = (0.0, 0);
        for (var ink = 0; ink < NeugebauerPrinter.Inks; ink++)
        {
            if ((overprint & (1 << ink)) != 0)
            {
                sum += Solid(pigment, ink, nm) * (ink == NeugebauerPrinter.Inks - 1 ? 1 + moreBlack : 1) * (before++ == 0 ? 1 : Trapping);
            }
        }

        return sum;
    }

    private static double Solid(bool pigment, int ink, double nm)
    {
        var pure = pigment ? 1 : 0.55; // what an ink swallows that it should let through
        var strong = pigment ? 1 : 1.12;
        return ink switch
        {
            0 => (strong * ((1.5 * Bell(nm, 625, 48)) + (0.9 * Bell(nm, 695, 42)))) + (pure * (0.16 + (0.12 * Bell(nm, 400, 45)))),
            1 => (strong * ((1.25 * Bell(nm, 552, 30)) + (0.85 * Bell(nm, 515, 32)))) + (pure * (0.06 + (0.4 * Bell(nm, 415, 50)))),
            2 => (strong * 1.45 * Step(nm, 487, -10)) + (pure * 0.035),
            _ => 1.75 + (0.12 * (nm - 555) / 175),
        };
    }

    private static double Bell(double nm, double centre, double width) => Math.Exp(-0.5 * Math.Pow((nm - centre) / width, 2));

    private static double Step(double nm, double centre, double width) => 1 / (1 + Math.Exp(-(nm - centre) / width));

    // Box and Muller.
    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
