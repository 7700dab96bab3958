using Goodsheet.Colour.Adaptation;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;

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
    private static readonly Bradford ToD50 = new(Xyz.D65, Xyz.PcsD50);

    private static readonly Matrix3 Cones = new(0.4002, 0.7075, -0.0807, -0.2280, 1.1500, 0.0612, 0, 0, 0.9184);
    private static readonly Matrix3 Opponents = new(0.4, 0.4, 0.2, 4.4550, -4.8510, 0.3960, 0.8056, 0.3572, -1.1628);
    private static readonly Matrix3 FromCones = Cones.Inverse()!;
    private static readonly Matrix3 FromOpponents = Opponents.Inverse()!;

    /// <summary>Lightness I, red-green P and yellow-blue T of a colour.</summary>
    /// <param name="lab">L*a*b* for D50.</param>
    public static (double I, double P, double T) From(Lab lab)
    {
        var xyz = ToD65.Apply(lab.ToXyz(Xyz.PcsD50));
        Span<double> one = [xyz.X / 100, xyz.Y / 100, xyz.Z / 100];
        Span<double> other = stackalloc double[3];
        Cones.Apply(one, other);
        for (var k = 0; k < 3; k++)
        {
            one[k] = Signed(other[k], Power);
        }

        Opponents.Apply(one, other);
        return (Scale * other[0], Scale * other[1], Scale * other[2]);
    }

    /// <summary>The colour of a lightness I, red-green P and yellow-blue T: the way back from <see cref="From"/>.</summary>
    /// <returns>L*a*b* for D50.</returns>
    public static Lab ToLab(double i, double p, double t)
    {
        Span<double> one = [i / Scale, p / Scale, t / Scale];
        Span<double> other = stackalloc double[3];
        FromOpponents.Apply(one, other);
        for (var k = 0; k < 3; k++)
        {
            one[k] = Signed(other[k], 1 / Power);
        }

        FromCones.Apply(one, other);
        return ToD50.Apply(new(100 * other[0], 100 * other[1], 100 * other[2])).ToLab(Xyz.PcsD50);
    }

    private static double Signed(double v, double power) => v >= 0 ? Math.Pow(v, power) : -Math.Pow(-v, power);
}
