using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Whiteness;

/// <summary>Brightness as paper makers mean it: reflectance in the blue around 457 nm, in percent.</summary>
/// <remarks>
/// The weights are those of R457 (ISO 2470), from memory. The standard measures with diffuse light and a set amount of UV;
/// a print room's instrument has another geometry, so the figure compares papers in one room, not with a data sheet.
/// </remarks>
public static class BlueBrightness
{
    // 400 to 510 nm by 10; from memory.
    private static readonly double[] Weights = [1.0, 6.7, 18.2, 34.5, 57.6, 82.5, 100.0, 88.7, 53.1, 20.3, 5.6, 0.3];

    /// <summary>The brightness of a paper, 0 to about 120.</summary>
    public static double Of(Spectrum paper) =>
        100 * Weights.Select((w, i) => w * paper.At(400 + (10 * i))).Sum() / Weights.Sum();
}
