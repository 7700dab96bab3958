using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Density;

namespace Goodsheet.Colour.Tests.Density;

public class DensitiesTest
{
    [Theory]
    [InlineData(DensityStatus.Visual)]
    [InlineData(DensityStatus.A)]
    [InlineData(DensityStatus.E)]
    [InlineData(DensityStatus.M)]
    [InlineData(DensityStatus.T)]
    public void A_tenth_of_the_light_is_density_1_in_every_channel(DensityStatus status)
    {
        var d = Densities.Of(new(380, 10, [.. Enumerable.Repeat(0.1, 36)]), status);
        Assert.All((double[])[d.Red, d.Green, d.Blue, d.Visual], v => Assert.Equal(1, v, 1e-12));
    }

    [Fact]
    public void Each_ink_darkens_its_own_channel()
    {
        // An invented yellow: it takes the blue below 500 nm.
        var yellow = new Spectrum(380, 10, [.. Enumerable.Range(0, 36).Select(i => i < 12 ? 0.05 : 0.85)]);
        var d = Densities.Of(yellow, DensityStatus.T);
        Assert.True(d.Blue > 5 * Math.Max(d.Red, d.Green), d.ToString());
    }

    [Fact]
    public void Nothing_at_all_is_still_a_number() => Assert.Equal(5, Densities.FromLab(new(0, 0, 0)), 1e-9);
}
