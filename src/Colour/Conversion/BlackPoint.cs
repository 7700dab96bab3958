using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Conversion;

/// <summary>The darkest colour of a profile, and compensation for it (ISO 18619:2015, from memory).</summary>
/// <remarks>
/// The steps are those of the published method as Little CMS 2 carries them out, which is our test. A source black is
/// made neutral first: left with its own hue, pictures come out up to 1.7 ΔE00 away from other engines.
/// </remarks>
public static class BlackPoint
{
    private const double LightestBlack = 50; // L*: a black lighter than this is a fault of the profile
    private const int RampSteps = 255;

    /// <summary>The black of the reference medium, on which perceptual tables of version 4 end (ICC.1 clause 6.3.3).</summary>
    private static readonly XyzNumber PerceptualReference = new(0.00336, 0.0034731, 0.00287);

    /// <summary>The black of a profile that pictures come from: neutral XYZ, relative to the media white.</summary>
    /// <remarks>Zero for the absolute intent, and where the profile has no way to tell.</remarks>
    public static XyzNumber OfSource(IccProfile profile, RenderingIntent intent)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return Fixed(profile, intent) ?? Neutral(SourceLightness(profile, intent));
    }

    /// <summary>The black of a profile that pictures go to: neutral XYZ, relative to the media white.</summary>
    /// <remarks>Found by sending greys to the device and back: where the tables end is the black, and where they end
    /// softly a curve through the shadows says where it would be.</remarks>
    public static XyzNumber OfDestination(IccProfile profile, RenderingIntent intent)
    {
        ArgumentNullException.ThrowIfNull(profile);
        if (Fixed(profile, intent) is { } black)
        {
            return black;
        }

        var device = profile.Header.Space is ColourSpace.Grey or ColourSpace.Rgb or ColourSpace.Cmyk;
        var guess = SourceLightness(profile, intent);
        if (!profile.HasTableFromPcs(intent) || !device)
        {
            return Neutral(guess);
        }

        return Neutral(DestinationLightness(profile, intent, guess));
    }

    /// <summary>The scaling of XYZ that takes one black to another and leaves the white: XYZ' = a XYZ + b.</summary>
    /// <returns>The matrix with its offset, or null when the blacks are the same.</returns>
    public static Matrix3? Compensation(XyzNumber from, XyzNumber to)
    {
        if (from == to)
        {
            return null;
        }

        var white = XyzNumber.D50;
        var (ax, bx) = Along(white.X, from.X, to.X);
        var (ay, by) = Along(white.Y, from.Y, to.Y);
        var (az, bz) = Along(white.Z, from.Z, to.Z);
        return new(ax, 0, 0, 0, ay, 0, 0, 0, az, bx, by, bz);

        static (double, double) Along(double white, double from, double to) =>
            ((to - white) / (from - white), -white * (to - from) / (from - white));
    }

    // What version 4 prescribes, or zero where there is no black point.
    private static XyzNumber? Fixed(IccProfile profile, RenderingIntent intent) => intent switch
    {
        RenderingIntent.AbsoluteColorimetric => default(XyzNumber),
        RenderingIntent.RelativeColorimetric => null,
        _ when profile.Header.Major < 4 => null,
        _ when profile.IsMatrixShaper => Neutral(Darkest(profile, RenderingIntent.RelativeColorimetric)),
        _ => PerceptualReference,
    };

    private static double SourceLightness(IccProfile profile, RenderingIntent intent)
    {
        var inkLimited = intent == RenderingIntent.RelativeColorimetric
            && profile.Header is { Class: ProfileClass.Output, Space: ColourSpace.Cmyk };
        return inkLimited ? PrintedBlack(profile) : Darkest(profile, intent);
    }

    // The device's own black: no light, or all inks.
    private static double Darkest(IccProfile profile, RenderingIntent intent)
    {
        if (!profile.IsMatrixShaper && !profile.HasTableToPcs(intent))
        {
            return 0;
        }

        double[] black = profile.Header.Space switch
        {
            ColourSpace.Cmyk => [1, 1, 1, 1],
            ColourSpace.Grey => [0],
            _ => [0, 0, 0],
        };
        return Clip(PixelSteps.Lightness(profile.ToPcs(intent)!.Stages, ColourTransform.Bridge(profile.Header.Pcs, ColourSpace.Lab, null), black));
    }

    // All inks at once are never printed: what the perceptual tables make of black is.
    private static double PrintedBlack(IccProfile profile) =>
        (profile.IsMatrixShaper || profile.HasTableToPcs(RenderingIntent.Perceptual)) && RoundTrip(profile, RenderingIntent.Perceptual) is { } trip
            ? Clip(trip(profile.Header.Major >= 4 ? ReferenceBlack() : default))
            : 0;

    // Where tables of version 4 expect black to be; it is not quite neutral.
    private static Lab ReferenceBlack()
    {
        Span<double> lab = stackalloc double[3];
        PcsStage.ToLab([PerceptualReference.X, PerceptualReference.Y, PerceptualReference.Z], lab);
        return new(lab[0], lab[1], lab[2]);
    }

    private static double DestinationLightness(IccProfile profile, RenderingIntent intent, double guess)
    {
        if (RoundTrip(profile, intent) is not { } trip)
        {
            return 0;
        }

        var ramp = new double[RampSteps + 1];
        for (var i = 0; i <= RampSteps; i++)
        {
            ramp[i] = trip(new(Lightness(i), 0, 0));
        }

        for (var i = RampSteps - 1; i > 0; i--)
        {
            ramp[i] = Math.Min(ramp[i], ramp[i + 1]);
        }

        var (least, most) = (ramp[0], ramp[RampSteps]);
        if (!(least < most))
        {
            return 0;
        }

        var relative = intent == RenderingIntent.RelativeColorimetric;
        if (relative && IsNearlyStraight(ramp, least, most))
        {
            return guess;
        }

        // The shadows, as shares of the whole range: a curve through them is followed down to zero.
        var (low, high) = relative ? (0.1, 0.5) : (0.03, 0.25);
        List<(double X, double Y)> shadows = [];
        for (var i = 0; i <= RampSteps; i++)
        {
            var share = (ramp[i] - least) / (most - least);
            if (share >= low && share < high)
            {
                shadows.Add((Lightness(i), share));
            }
        }

        return Quadratic.Root(shadows, LightestBlack);
    }

    private static bool IsNearlyStraight(double[] ramp, double least, double most)
    {
        const double near = 4; // L*
        var shadow = least + (0.2 * (most - least));
        for (var i = 0; i < ramp.Length; i++)
        {
            if (Lightness(i) > shadow && Math.Abs(Lightness(i) - ramp[i]) >= near)
            {
                return false;
            }
        }

        return true;
    }

    private static double Lightness(int step) => step * 100.0 / RampSteps;

    // A neutral's lightness sent to the device by the intent and seen again as printed.
    private static Func<Lab, double>? RoundTrip(IccProfile profile, RenderingIntent intent)
    {
        return profile.FromPcs(intent) is { } there && profile.ToPcs(RenderingIntent.RelativeColorimetric) is { } back
            ? PixelSteps.ThereAndBack(
                there.Stages, back.Stages,
                ColourTransform.Bridge(ColourSpace.Lab, profile.Header.Pcs, null), ColourTransform.Bridge(profile.Header.Pcs, ColourSpace.Lab, null))
            : null;
    }

    private static double Clip(double lightness) => double.IsNaN(lightness) ? 0 : Math.Clamp(lightness, 0, LightestBlack);

    private static XyzNumber Neutral(double lightness)
    {
        Span<double> xyz = stackalloc double[3];
        PcsStage.ToXyz([lightness, 0, 0], xyz);
        return new(xyz[0], xyz[1], xyz[2]);
    }
}
