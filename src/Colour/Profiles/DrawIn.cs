using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;

namespace Goodsheet.Colour.Profiles;

/// <summary>How an intent draws colours into what can be printed, and back: lightness by its black, chroma by a knee.</summary>
/// <remarks>
/// The perceptual intent of version 4 starts from a reference medium whose black has 0.30911 % of the white's luminance
/// (ICC.1, perceptual reference medium); that of version 2 from a black of 0. Lightness is scaled in XYZ as black-point
/// compensation does it, but onto the printer's own black with its hue, so that black prints as black as it can. Chroma
/// is left alone up to a part of what the condition reaches and then bends smoothly, never reaching it, along lines of
/// one hue in <see cref="HueLinear"/>. A true inverse, so that a proof shows what was asked for. See docs/decisions/0041.
/// </remarks>
internal sealed class DrawIn
{
    private const double ReferenceBlack = 0.0030911;
    private const double MostOfBend = 0.985;

    // How sharply the knee bends: a colour just on the reach keeps 93 % of its chroma when the knee is at 70 %.
    private const double Sharpness = 2.5;

    private readonly ChromaReach reach;
    private readonly double knee;
    private readonly Xyz scale;

    /// <param name="reach">What the condition reaches.</param>
    /// <param name="black">Its darkest colour, relative to the paper.</param>
    /// <param name="fromReferenceMedium">Version 4.</param>
    /// <param name="knee">The part of the reach up to which chroma is left alone, 0 to 1.</param>
    public DrawIn(ChromaReach reach, Lab black, bool fromReferenceMedium, double knee)
    {
        (this.reach, this.knee) = (reach, knee);
        var from = fromReferenceMedium ? ReferenceBlack : 0;
        var (b, white) = (black.ToXyz(Xyz.PcsD50), Xyz.PcsD50);
        scale = new(
            (1 - (b.X / white.X)) / (1 - from), (1 - (b.Y / white.Y)) / (1 - from), (1 - (b.Z / white.Z)) / (1 - from));
    }

    /// <summary>From the connection space to what is to be printed.</summary>
    public Lab ToPrint(Lab wanted)
    {
        var (xyz, white) = (wanted.ToXyz(Xyz.PcsD50), Xyz.PcsD50);
        var lit = new Xyz(
            white.X - ((white.X - xyz.X) * scale.X), white.Y - ((white.Y - xyz.Y) * scale.Y), white.Z - ((white.Z - xyz.Z) * scale.Z));
        return Bend(lit.ToLab(white), t => t / Math.Pow(1 + Math.Pow(t, Sharpness), 1 / Sharpness));
    }

    /// <summary>From what is printed to the connection space.</summary>
    public Lab FromPrint(Lab printed)
    {
        var (lit, white) = (Bend(printed, Unbent).ToXyz(Xyz.PcsD50), Xyz.PcsD50);
        return new Xyz(
            white.X - ((white.X - lit.X) / scale.X), white.Y - ((white.Y - lit.Y) / scale.Y), white.Z - ((white.Z - lit.Z) / scale.Z)).ToLab(white);

        static double Unbent(double bent)
        {
            var t = Math.Min(bent, MostOfBend);
            return t / Math.Pow(1 - Math.Pow(t, Sharpness), 1 / Sharpness);
        }
    }

    // What lies beyond the knee is bent, in parts of the way from the knee to the reach.
    private Lab Bend(Lab colour, Func<double, double> bend)
    {
        var (i, p, t) = HueLinear.From(colour);
        var chroma = double.Hypot(p, t);
        var reached = reach.At(i, Math.Atan2(t, p) * 180 / Math.PI);
        var part = chroma / reached;
        if (part <= knee)
        {
            return colour;
        }

        var by = (knee + ((1 - knee) * bend((part - knee) / (1 - knee)))) / part;
        return HueLinear.ToLab(i, p * by, t * by);
    }
}
