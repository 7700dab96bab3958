using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Whiteness;

/// <summary>How much of a paper's white is brightener.</summary>
public enum BrightenerClass
{
    /// <summary>A brightness difference below 4.</summary>
    Faint,

    /// <summary>4 up to 8.</summary>
    Low,

    /// <summary>8 up to 14.</summary>
    Moderate,

    /// <summary>14 and more.</summary>
    High,
}

/// <summary>What the white of a paper owes to ultraviolet light.</summary>
/// <param name="Index">b* without UV minus b* with UV: 0 without brightener, 6 on a paper that looks clean only under UV.</param>
/// <param name="BrightnessDifference">Blue brightness with UV minus that without, where there are spectra.</param>
/// <param name="Class">By the brightness difference, with the limits of ISO 15397 from memory; where there are no
/// spectra, by 1.44 times the index, as it was on two measured papers.</param>
public sealed record OpticalBrightener(double Index, double? BrightnessDifference, BrightenerClass Class)
{
    // On two measured papers, 5.93 of b* went with 8.53 of brightness and 0.59 with 0.85.
    private const double BrightnessPerB = 1.44;

    /// <summary>Judges a paper by its bare white, read twice.</summary>
    /// <param name="withUv">Under M0 or M1.</param>
    /// <param name="withoutUv">Under M2.</param>
    /// <param name="brightnessDifference">Blue brightness with UV minus that without, where there are spectra.</param>
    public static OpticalBrightener Of(Lab withUv, Lab withoutUv, double? brightnessDifference = null)
    {
        var index = withoutUv.B - withUv.B;
        return new(index, brightnessDifference, ClassOf(brightnessDifference ?? (BrightnessPerB * index)));
    }

    /// <summary>Judges a paper by the spectra of its bare white.</summary>
    /// <param name="withUv">Under M0 or M1.</param>
    /// <param name="withoutUv">Under M2.</param>
    public static OpticalBrightener Of(Spectrum withUv, Spectrum withoutUv) => Of(
        TristimulusWeights.D50.ToLab(withUv), TristimulusWeights.D50.ToLab(withoutUv), BlueBrightness.Of(withUv) - BlueBrightness.Of(withoutUv));

    private static BrightenerClass ClassOf(double difference) => difference switch
    {
        < 4 => BrightenerClass.Faint,
        < 8 => BrightenerClass.Low,
        < 14 => BrightenerClass.Moderate,
        _ => BrightenerClass.High,
    };
}
