using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Tests.Measurement;

/// <summary>What must hold of any light; figures of a real paper are in the bench.</summary>
public class ViewingLightTest
{
    [Fact]
    public void A_flat_grey_is_neutral_and_as_light_under_every_light()
    {
        // A spectrum without any hue has none under any lamp, once the eye is used to it.
        var chart = Charts.Set(Charts.Rgb(head: "MEASUREMENT_CONDITION \"M0\"\n"));
        var warm = chart.Under(ViewingLight.WarmLamp);
        foreach (var (lit, read) in warm.Patches.Zip(chart.Patches))
        {
            Assert.Equal(read.Lab.L, lit.Lab.L, 1e-6);
            Assert.InRange(lit.Lab.Chroma, 0, 1e-6);
        }
    }

    [Fact]
    public void Each_light_asks_for_its_own_condition_and_for_spectra()
    {
        var (m0, m2) = (Charts.Set(CxfSamples.Rgb("M0")), Charts.Set(CxfSamples.Rgb("M2")));
        Assert.True(m0.Tells(ViewingLight.Daylight) && !m0.Tells(ViewingLight.UvFreeGlass));
        Assert.True(m2.Tells(ViewingLight.UvFreeGlass) && !m2.Tells(ViewingLight.Daylight));
        Assert.False(Charts.Set(CxfSamples.Cmyk()).Tells(ViewingLight.WarmLamp));
        Assert.Throws<ArgumentException>(() => m0.Under(ViewingLight.UvFreeGlass));
    }
}
