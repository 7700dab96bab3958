using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Profiles;

/// <summary>How an intent draws colours into what can be printed, and back: lightness by its black, chroma by a knee.</summary>
/// <remarks>
/// The perceptual intent of version 4 starts from a reference medium whose black has 0.30911 % of the white's luminance
/// (ICC.1, perceptual reference medium); that of version 2 from a black of 0. Lightness is scaled in XYZ as black-point
/// compensation does it; chroma is left alone up to a part of what the condition reaches and then bends smoothly, never
/// reaching it. A true inverse, so that a proof shows what was asked for.
/// </remarks>
internal sealed class DrawIn
{
    private const double ReferenceBlack = 0.0030911;
    private const double MostOfBend = 0.985;

    private readonly ChromaReach reach;
    private readonly double knee;
    private readonly double scale;
    private readonly double lift;

    /// <param name="reach">What the condition reaches.</param>
    /// <param name="blackY">The luminance of its black, 0 to 1 of the paper's.</param>
    /// <param name="fromReferenceMedium">Version 4.</param>
    /// <param name="knee">The part of the reach up to which chroma is left alone, 0 to 1.</param>
    public DrawIn(ChromaReach reach, double blackY, bool fromReferenceMedium, double knee)
    {
        (this.reach, this.knee) = (reach, knee);
        var from = fromReferenceMedium ? ReferenceBlack : 0;
        scale = (1 - blackY) / (1 - from);
        lift = 1 - scale;
    }

    /// <summary>From the connection space to what is to be printed.</summary>
    public Lab ToPrint(Lab wanted)
    {
        var lit = Scale(wanted, scale, lift);
        return Bend(lit, c => c <= knee ? c : knee + ((1 - knee) * ((c - knee) / (1 - knee) / (1 + ((c - knee) / (1 - knee))))));
    }

    /// <summary>From what is printed to the connection space.</summary>
    public Lab FromPrint(Lab printed)
    {
        var unbent = Bend(printed, c =>
        {
            if (c <= knee)
            {
                return c;
            }

            var t = Math.Min((c - knee) / (1 - knee), MostOfBend);
            return knee + ((1 - knee) * (t / (1 - t)));
        });
        return Scale(unbent, 1 / scale, -lift / scale);
    }

    private Lab Bend(Lab colour, Func<double, double> bend)
    {
        if (colour.Chroma < 1e-9)
        {
            return colour;
        }

        var reached = reach.At(colour.L, colour.HueDegrees);
        var by = bend(colour.Chroma / reached) * reached / colour.Chroma;
        return new(colour.L, colour.A * by, colour.B * by);
    }

    private static Lab Scale(Lab colour, double by, double and)
    {
        var xyz = colour.ToXyz(Xyz.PcsD50);
        return new Xyz(
            (xyz.X * by) + (Xyz.PcsD50.X * and), (xyz.Y * by) + (Xyz.PcsD50.Y * and), (xyz.Z * by) + (Xyz.PcsD50.Z * and)).ToLab(Xyz.PcsD50);
    }
}
