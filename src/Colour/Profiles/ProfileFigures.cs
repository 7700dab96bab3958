using Goodsheet.Colour.Difference;

namespace Goodsheet.Colour.Profiles;

/// <summary>The colours of one kind on a chart, and how far a profile is off on them.</summary>
/// <param name="Region">Which colours.</param>
/// <param name="Errors">The errors of its patches.</param>
/// <param name="Lean">Measured less foretold, L* a* b* on average: which way all of them lie beside what was foretold.</param>
public sealed record RegionErrors(ColourRegion Region, ErrorSummary Errors, Colorimetry.Lab Lean);

/// <summary>Kinds of colours that a keeper asks after. A patch may be of several, or of none.</summary>
/// <remarks>The limits are common practice, no source. Those of skin, foliage and sky lie around the patches of these names
/// in the chart of ISO 17321-1 (values as carried by colour-science), which a test holds them to.</remarks>
public enum ColourRegion
{
    /// <summary>L* below 25, or within 12 of the darkest patch of a paper whose black is weak.</summary>
    Darks,

    /// <summary>Within 4 of the paper's hue, by C*ab relative to the paper.</summary>
    Neutrals,

    /// <summary>L* 35 to 88, C*ab 10 to 42, hue 30 to 78 degrees: skin of all kinds.</summary>
    Skin,

    /// <summary>L* 20 to 75, C*ab 15 to 50, hue 98 to 140 degrees: leaves and grass.</summary>
    Foliage,

    /// <summary>L* 35 to 90, C*ab 8 to 42, hue 230 to 278 degrees: clear and hazy sky.</summary>
    Sky,

    /// <summary>C*ab 50 and more.</summary>
    Saturated,
}

/// <summary>A patch and how far the profile is off on it.</summary>
/// <param name="Id">As the chart calls it.</param>
/// <param name="Device">Its device values, 0 to 1.</param>
/// <param name="Measured">As read, absolute.</param>
/// <param name="Foretold">As the profile has it, absolute.</param>
/// <param name="Error">The difference, dE00.</param>
public sealed record PatchError(
    string Id, IReadOnlyList<double> Device, Colorimetry.Lab Measured, Colorimetry.Lab Foretold, double Error);

/// <summary>A step of the grey ramp as it prints: R = G = B, or black ink alone.</summary>
/// <param name="Device">0 to 1: 1 is paper.</param>
/// <param name="Printed">Absolute.</param>
public sealed record GreyStep(double Device, Colorimetry.Lab Printed);

/// <summary>One channel from bare paper to full ink, all others bare, as the profile foretells it.</summary>
/// <param name="Channel">Which, from 0.</param>
/// <param name="Steps">From full ink to paper, by how much of the paper is left: 0 to 1.</param>
public sealed record InkRamp(int Channel, IReadOnlyList<GreyStep> Steps)
{
    private const double Seen = 0.5; // L*: what a ramp may turn back by before it shows

    /// <summary>How far it turns back in lightness on its way, L*; 0 where it never does.</summary>
    public double TurnsBack
    {
        get
        {
            var (least, most) = (0.0, Steps[^1].Printed.L);
            foreach (var step in Steps.Reverse())
            {
                least = Math.Min(least, most - step.Printed.L);
                most = Math.Min(most, step.Printed.L);
            }

            return Math.Max(0, -least);
        }
    }

    /// <summary>Whether it turns back so far that it shows: more ink prints lighter.</summary>
    public bool Reverses => TurnsBack > Seen;

    /// <summary>The largest second difference of L*: how sharply its slope bends from step to step.</summary>
    public double Bend => Bends.Of([.. Steps.Select(s => s.Printed.L)]);
}

/// <summary>How sharply a row of equal steps bends.</summary>
public static class Bends
{
    /// <summary>The largest second difference; 0 for fewer than three steps.</summary>
    public static double Of(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return values.Count < 3 ? 0 : Enumerable.Range(1, values.Count - 2).Max(i => Math.Abs(values[i + 1] - (2 * values[i]) + values[i - 1]));
    }
}

/// <summary>How large a gamut is, and how sure that is.</summary>
/// <param name="Volume">Cubic L*a*b*.</param>
/// <param name="Error">What it may be wrong by, one way or the other: the measured surface patches lie that much
/// farther out or in than the profile says (two standard errors), and the mesh adds its own.</param>
public sealed record GamutSize(double Volume, double Error);
