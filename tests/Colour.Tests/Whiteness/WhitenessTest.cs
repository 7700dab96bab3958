using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Whiteness;

namespace Goodsheet.Colour.Tests.Whiteness;

public class WhitenessTest
{
    // Half the last digit of the worked value.
    private const double Printed = 0.5e-3;

    /// <summary>A worked value of the CIE 15 formulas, as colour-science gives it.</summary>
    [Fact]
    public void Whiteness_and_tint_are_those_of_the_worked_value()
    {
        var found = CieWhiteness.Of(new Xyz(95, 100, 105), Observer.TenDegrees);
        Assert.Equal(93.756, found.Whiteness, Printed);
        Assert.Equal(-1.045, found.Tint, Printed);
        Assert.True(found.IsWhite);
    }

    [Fact]
    public void The_perfect_diffuser_has_whiteness_100_tint_0_and_brightness_100()
    {
        var found = CieWhiteness.Of(Flat(1));
        Assert.Equal(100, found.Whiteness, 0.1); // the white of the weights is rounded
        Assert.Equal(0, found.Tint, 0.05);
        Assert.Equal(100, BlueBrightness.Of(Flat(1)), 1e-9);
    }

    [Fact]
    public void A_grey_is_not_a_white() => Assert.False(CieWhiteness.Of(Flat(0.4)).IsWhite);

    [Theory]
    [InlineData(0.039, BrightenerClass.Faint)]
    [InlineData(0.041, BrightenerClass.Low)]
    [InlineData(0.079, BrightenerClass.Low)]
    [InlineData(0.081, BrightenerClass.Moderate)]
    [InlineData(0.139, BrightenerClass.Moderate)]
    [InlineData(0.141, BrightenerClass.High)]
    public void Brightener_is_classed_by_the_brightness_that_UV_adds(double added, BrightenerClass expected) =>
        Assert.Equal(expected, OpticalBrightener.Of(Flat(0.9 + added), Flat(0.9)).Class);

    private static Spectrum Flat(double r) => new(380, 10, [.. Enumerable.Repeat(r, 36)]);
}
