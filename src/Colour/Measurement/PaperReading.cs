using Goodsheet.Colour.Density;
using Goodsheet.Colour.Whiteness;

namespace Goodsheet.Colour.Measurement;

/// <summary>What one chart says of the paper under it: its white, and the darkest that was printed on it.</summary>
/// <param name="Condition">The M-condition; a white means nothing without it.</param>
/// <param name="White">The bare paper, where the chart has it; else the lightest patch.</param>
/// <param name="WhiteIsBare">Whether the chart has a patch without ink.</param>
/// <param name="Darkest">The patch with the least luminance.</param>
/// <param name="DMax">Visual density of the darkest patch, absolute: −log10(Y / 100).</param>
/// <param name="Whiteness">CIE whiteness and tint, where there are spectra.</param>
/// <param name="Brightness">Blue brightness in percent, where there are spectra.</param>
public sealed record PaperReading(
    MCondition Condition, AveragedPatch White, bool WhiteIsBare, AveragedPatch Darkest, double DMax, CieWhiteness? Whiteness, double? Brightness)
{
    /// <summary>Reads a chart for its paper.</summary>
    /// <exception cref="ArgumentException">The chart is empty.</exception>
    public static PaperReading Of(MeasurementSet chart)
    {
        var patches = chart.Averaged();
        if (patches.IsEmpty)
        {
            throw new ArgumentException("A chart without patches says nothing of its paper.", nameof(chart));
        }

        var bare = patches.FirstOrDefault(p => IsBare(chart.Space, p));
        var white = bare ?? patches.MaxBy(p => p.Lab.L)!;
        var darkest = patches.MinBy(p => p.Lab.L)!;
        return new(
            chart.Condition,
            white,
            bare is not null,
            darkest,
            Densities.FromLab(darkest.Lab),
            white.Spectrum is { } s ? CieWhiteness.Of(s) : null,
            white.Spectrum is { } t ? BlueBrightness.Of(t) : null);
    }

    private static bool IsBare(DeviceSpace space, AveragedPatch patch) => space switch
    {
        DeviceSpace.Grey or DeviceSpace.Rgb => patch.Device.All(v => v == 1),
        DeviceSpace.Cmyk or DeviceSpace.Inks => patch.Device.All(v => v == 0),
        _ => false,
    };
}
