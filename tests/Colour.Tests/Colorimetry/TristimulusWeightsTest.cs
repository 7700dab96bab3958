using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Tests.Colorimetry;

public class TristimulusWeightsTest
{
    // The tables here were computed from 1 nm data and rounded to four decimals; ASTM prints three.
    private const double RoundedTables = 0.015;

    // Straight sums of 36 numbers: rounding only.
    private const double Rounding = 1e-9;

    /// <summary>White points as ASTM E308 prints them, from memory.</summary>
    [Theory]
    [InlineData(Light.D50, Observer.TwoDegrees, 96.422, 82.521)]
    [InlineData(Light.D65, Observer.TwoDegrees, 95.047, 108.883)]
    [InlineData(Light.A, Observer.TwoDegrees, 109.850, 35.585)]
    [InlineData(Light.D65, Observer.TenDegrees, 94.811, 107.304)]
    [InlineData(Light.A, Observer.TenDegrees, 111.144, 35.200)]
    public void Their_sums_are_the_published_white_points(Light light, Observer observer, double x, double z)
    {
        var white = TristimulusWeights.For(light, observer).White;
        Assert.Equal(x, white.X, RoundedTables);
        Assert.Equal(100, white.Y, RoundedTables);
        Assert.Equal(z, white.Z, RoundedTables);
    }

    [Fact]
    public void A_perfect_diffuser_is_white_whatever_the_instrument_covers()
    {
        foreach (var (start, count) in ((double, int)[])[(360, 43), (380, 36), (400, 31)])
        {
            var lab = TristimulusWeights.D50.ToLab(new(start, 10, [.. Enumerable.Repeat(1.0, count)]));
            Assert.Equal(100, lab.L, Rounding);
            Assert.Equal(0, lab.Chroma, Rounding);
        }
    }

    [Fact]
    public void The_white_that_measured_Lab_relates_to_is_the_sum_of_the_weights()
    {
        Assert.Equal(TristimulusWeights.D50.White.X, Xyz.D50.X, Rounding);
        Assert.Equal(TristimulusWeights.D50.White.Y, Xyz.D50.Y, Rounding);
        Assert.Equal(TristimulusWeights.D50.White.Z, Xyz.D50.Z, Rounding);
    }

    [Theory]
    [InlineData(5)]
    [InlineData(20)]
    [InlineData(1)]
    public void A_smooth_spectrum_has_nearly_the_same_colour_at_any_step(int step)
    {
        // A broad hump, as inks have: the second difference under the triangle is the error that is left.
        Spectrum Hump(int s) => new(380, s, [.. Enumerable.Range(0, (340 / s) + 1).Select(i => 0.1 + (0.6 * Math.Exp(-Math.Pow(((s * i) - 150.0) / 80, 2))))]);
        var fine = TristimulusWeights.D50.ToLab(Hump(step));
        var ten = TristimulusWeights.D50.ToLab(Hump(10));
        Assert.InRange(double.Hypot(double.Hypot(fine.L - ten.L, fine.A - ten.A), fine.B - ten.B), 0, 0.25);
    }

    [Fact]
    public void A_spectrum_of_infrared_alone_is_refused() =>
        Assert.Throws<ArgumentException>(() => TristimulusWeights.D50.ToXyz(new(800, 10, [1, 1])));
}
