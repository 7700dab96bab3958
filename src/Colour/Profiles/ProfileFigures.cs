using Goodsheet.Colour.Difference;

namespace Goodsheet.Colour.Profiles;

/// <summary>The colours of one kind on a chart, and how far a profile is off on them.</summary>
/// <param name="Region">Which colours.</param>
/// <param name="Errors">The errors of its patches.</param>
public sealed record RegionErrors(ColourRegion Region, ErrorSummary Errors);

/// <summary>Kinds of colours that a keeper asks after. A patch may be of several, or of none.</summary>
/// <remarks>The limits are common practice, no source.</remarks>
public enum ColourRegion
{
    /// <summary>L* below 25, or within 12 of the darkest patch of a paper whose black is weak.</summary>
    Darks,

    /// <summary>Within 4 of the paper's hue, by C*ab relative to the paper.</summary>
    Neutrals,

    /// <summary>L* 35 to 88, C*ab 10 to 42, hue 30 to 78 degrees: skin of all kinds.</summary>
    Skin,

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

/// <summary>How large a gamut is, and how sure that is.</summary>
/// <param name="Volume">Cubic L*a*b*.</param>
/// <param name="Error">What it may be wrong by, one way or the other: the measured surface patches lie that much
/// farther out or in than the profile says (two standard errors), and the mesh adds its own.</param>
public sealed record GamutSize(double Volume, double Error);
