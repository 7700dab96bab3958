using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Measurement;

/// <summary>What a chart says of the paper it is printed on.</summary>
/// <param name="White">The bare paper, mean of its patches.</param>
/// <param name="Darkest">The darkest patch.</param>
/// <param name="DMax">-log10 of the darkest patch's Y, paper not subtracted.</param>
/// <param name="UvShift">b* without ultraviolet minus b* with it; none without a second reading. Above 0: a brightener lights up.</param>
public sealed record PaperAssessment(Lab White, Lab Darkest, double DMax, double? UvShift)
{
    /// <summary>Assesses a chart that has patches of bare paper.</summary>
    /// <param name="chart">As read, with ultraviolet (M0 or M1).</param>
    /// <param name="uvExcluded">The same chart without it (M2), if it was read so.</param>
    /// <returns>None when the chart has no patch of bare paper.</returns>
    public static PaperAssessment? Of(MeasurementSet chart, MeasurementSet? uvExcluded = null)
    {
        if (WhiteOf(chart) is not { } white)
        {
            return null;
        }

        var darkest = chart.Averaged().MinBy(p => p.Lab.L)!.Lab;
        var y = darkest.ToXyz(Xyz.D50).Y / 100;
        var without = uvExcluded is null ? null : WhiteOf(uvExcluded);
        return new(white, darkest, -Math.Log10(Math.Max(y, 1e-6)), without is { } w ? w.B - white.B : null);
    }

    private static Lab? WhiteOf(MeasurementSet chart)
    {
        var none = chart.Space == DeviceSpace.Cmyk ? 0 : 1;
        foreach (var patch in chart.Averaged())
        {
            if (patch.Device.All(d => d == none))
            {
                return patch.Lab;
            }
        }

        return null;
    }
}
