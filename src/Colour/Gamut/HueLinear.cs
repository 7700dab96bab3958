using Goodsheet.Colour.Adaptation;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Gamut;

/// <summary>The IPT space, in which lines of one hue are straight where CIELAB bends them, blue above all.</summary>
/// <remarks>
/// F. Ebner, M. D. Fairchild, "Development and testing of a color space (IPT) with improved hue uniformity", IS&amp;T 6th
/// Color Imaging Conference, 8 to 13 (1998); matrices from memory. Scaled by 100 here, so that its numbers are about as
/// large as those of CIELAB. Input is adapted from D50 to D65 by Bradford.
/// </remarks>
public static class HueLinear
{
    private const double Power = 0.43;
    private const double Scale = 100;

    private static readonly Bradford ToD65 = new(Xyz.PcsD50, Xyz.D65);

    /// <summary>Lightness I, red-green P and yellow-blue T of a colour.</summary>
    /// <param name="lab">L*a*b* for D50.</param>
    public static (double I, double P, double T) From(Lab lab)
    {
        var xyz = ToD65.Apply(lab.ToXyz(Xyz.PcsD50));
        var (x, y, z) = (xyz.X / 100, xyz.Y / 100, xyz.Z / 100);
        var l = Root((0.4002 * x) + (0.7075 * y) - (0.0807 * z));
        var m = Root((-0.2280 * x) + (1.1500 * y) + (0.0612 * z));
        var s = Root(0.9184 * z);
        return (
            Scale * ((0.4 * l) + (0.4 * m) + (0.2 * s)),
            Scale * ((4.4550 * l) - (4.8510 * m) + (0.3960 * s)),
            Scale * ((0.8056 * l) + (0.3572 * m) - (1.1628 * s)));
    }

    private static double Root(double v) => v >= 0 ? Math.Pow(v, Power) : -Math.Pow(-v, Power);
}
