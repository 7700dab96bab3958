using Goodsheet.Colour.Adaptation;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.App.Profiles;

/// <summary>A measured colour as a screen shows it: sRGB (IEC 61966-2-1), what it lacks cut off.</summary>
public static class ScreenColour
{
    private static readonly Bradford ToD65 = new(Xyz.PcsD50, new(95.047, 100, 108.883));

    /// <returns>Red, green, blue, 0 to 255.</returns>
    public static double[] Of(Lab lab)
    {
        var c = ToD65.Apply(lab.ToXyz(Xyz.PcsD50));
        return
        [
            Code((3.2406 * c.X) - (1.5372 * c.Y) - (0.4986 * c.Z)),
            Code((-0.9689 * c.X) + (1.8758 * c.Y) + (0.0415 * c.Z)),
            Code((0.0557 * c.X) - (0.2040 * c.Y) + (1.0570 * c.Z)),
        ];
    }

    private static double Code(double percent)
    {
        var v = Math.Clamp(percent / 100, 0, 1);
        return Math.Round(255 * (v <= 0.0031308 ? 12.92 * v : (1.055 * Math.Pow(v, 1 / 2.4)) - 0.055));
    }
}
