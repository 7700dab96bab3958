using Goodsheet.Colour.Adaptation;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Measurement;

/// <summary>Lights that prints are looked at under, as far as spectra tell.</summary>
public enum ViewingLight
{
    /// <summary>D50 with its ultraviolet: a viewing booth, a room by day. From spectra read in M1 or M0.</summary>
    Daylight,

    /// <summary>A warm lamp of 2856 K, as galleries have them. From spectra read in M0, whose lamp is one, or in any other.</summary>
    WarmLamp,

    /// <summary>D50 behind glass that lets no ultraviolet through. From spectra read in M2.</summary>
    UvFreeGlass,
}

/// <summary>What a chart looks like under another light than the one that prints are stated in.</summary>
/// <remarks>
/// XYZ by the weights of the light, brought to D50 by the linear Bradford transform, as an eye that has got used to the
/// light sees it. How much a brightener glows hangs on the ultraviolet of the instrument's lamp, not of the light that is
/// computed: hence each light wants its own M-condition.
/// </remarks>
public static class ViewingLights
{
    /// <summary>Whether a chart's spectra tell what it looks like under a light.</summary>
    public static bool Tells(this MeasurementSet chart, ViewingLight light) => chart.HasSpectra && light switch
    {
        ViewingLight.Daylight => chart.Condition is MCondition.M0 or MCondition.M1,
        ViewingLight.UvFreeGlass => chart.Condition is MCondition.M2,
        _ => true,
    };

    /// <summary>The chart with its colours under the light; the spectra are left out, since they would say otherwise.</summary>
    /// <exception cref="ArgumentException">The spectra do not tell: see <see cref="Tells"/>.</exception>
    public static MeasurementSet Under(this MeasurementSet chart, ViewingLight light)
    {
        if (!chart.Tells(light))
        {
            throw new ArgumentException($"A chart read in {chart.Condition}{(chart.HasSpectra ? "" : " without spectra")} does not tell what it looks like under that light.", nameof(light));
        }

        if (light is not ViewingLight.WarmLamp)
        {
            return chart with { Patches = [.. chart.Patches.Select(p => p with { Lab = TristimulusWeights.D50.ToLab(p.Spectrum!), Spectrum = null })] };
        }

        var warm = TristimulusWeights.For(Light.A, Observer.TwoDegrees);
        var adapt = new Bradford(warm.White, TristimulusWeights.D50.White);
        return chart with { Patches = [.. chart.Patches.Select(p => p with { Lab = adapt.Apply(warm.ToXyz(p.Spectrum!)).ToLab(TristimulusWeights.D50.White), Spectrum = null })] };
    }
}
