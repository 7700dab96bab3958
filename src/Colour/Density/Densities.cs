using System.Collections.Concurrent;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Density;

/// <summary>Reflection densities of one patch, absolute: the perfect diffuser has 0.</summary>
/// <param name="Red">Through red, which cyan ink darkens.</param>
/// <param name="Green">Through green, which magenta ink darkens.</param>
/// <param name="Blue">Through blue, which yellow ink darkens.</param>
/// <param name="Visual">As the eye weighs it, which black ink darkens.</param>
public readonly record struct Densities(double Red, double Green, double Blue, double Visual)
{
    // Density 5: below any reflectance an instrument can tell from nothing.
    private const double Darkest = 1e-5;

    private static readonly Lazy<Table> Weights = new(() => Table.Embedded("iso5-3-weights.csv"));
    private static readonly ConcurrentDictionary<string, double[]> Columns = new();

    /// <summary>The densities of a spectrum.</summary>
    /// <param name="spectrum">Reflectance. Outside its wavelengths the nearest value is taken.</param>
    /// <param name="status">Which red, green and blue; with <see cref="DensityStatus.Visual"/> all four are visual.</param>
    public static Densities Of(Spectrum spectrum, DensityStatus status)
    {
        var visual = Through(spectrum, "ISO_VISUAL");
        return status == DensityStatus.Visual
            ? new(visual, visual, visual, visual)
            : new(Through(spectrum, $"ANSI_STATUS_{status}_RED"), Through(spectrum, $"ANSI_STATUS_{status}_GREEN"), Through(spectrum, $"ANSI_STATUS_{status}_BLUE"), visual);
    }

    /// <summary>Visual density from luminance, −log10(Y / 100), for colours that came without a spectrum.</summary>
    /// <param name="lab">D50, 2°. The eye's weights under D50 differ from those of ISO 5-3 by a hundredth for greys.</param>
    public static double FromLab(Lab lab) => -Math.Log10(Math.Max(Darkest, lab.ToXyz(Xyz.D50).Y / Xyz.D50.Y));

    private static double Through(Spectrum spectrum, string column)
    {
        var weights = Columns.GetOrAdd(column, static c => Weights.Value.Column(c));
        var nm = Columns.GetOrAdd("nm", static c => Weights.Value.Column(c));
        double sum = 0, all = 0;
        for (var i = 0; i < nm.Length; i++)
        {
            sum += weights[i] * spectrum.At(nm[i]);
            all += weights[i];
        }

        return -Math.Log10(Math.Max(Darkest, sum / all));
    }
}
