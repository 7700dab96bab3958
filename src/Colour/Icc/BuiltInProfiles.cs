namespace Goodsheet.Colour.Icc;

/// <summary>Profiles for pictures that bring none, and for greys.</summary>
/// <remarks>
/// Primaries and curve of sRGB from IEC 61966-2-1:1999 and those of Adobe RGB (1998) from its published encoding, both
/// from memory; adapted from D65 to D50 by the linear Bradford matrix that ICC.1 recommends (its Annex E, from memory).
/// All of them carry the same fixed date, so that their bytes never change.
/// </remarks>
public static class BuiltInProfiles
{
    private static readonly DateTimeOffset Made = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private static readonly ParametricCurve SrgbCurve =
        new(ParametricForm.LinearToe, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045);

    private static readonly Matrix3 Bradford = new(0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296);

    private static readonly (double X, double Y) D65 = (0.3127, 0.3290);

    /// <summary>sRGB, the screen colours that pictures have when nothing says otherwise.</summary>
    public static byte[] SRgb(IccVersion version = IccVersion.V4) =>
        Rgb("sRGB (IEC 61966-2-1)", SrgbCurve, (0.64, 0.33), (0.30, 0.60), (0.15, 0.06), version);

    /// <summary>An RGB space with the primaries, white and gamma of Adobe RGB (1998).</summary>
    public static byte[] WideRgb(IccVersion version = IccVersion.V4) =>
        Rgb("RGB compatible with Adobe RGB (1998)", ToneCurve.Gamma(563.0 / 256), (0.64, 0.33), (0.21, 0.71), (0.15, 0.06), version);

    /// <summary>Grey of gamma 2.2, white D50.</summary>
    public static byte[] Grey(IccVersion version = IccVersion.V4) => IccProfileWriter.Write(
        new GreySpaceProfile
        {
            Created = Made,
            Description = Said("Grey, gamma 2.2"),
            Copyright = Free,
            Curve = ToneCurve.Gamma(563.0 / 256), // 2.19921875: what eight bits of fraction hold of 2.2
        },
        version);

    private static IReadOnlyList<LocalText> Free => Said("No copyright: this profile may be used by anybody for anything.");

    private static byte[] Rgb(
        string name, ToneCurve curve, (double X, double Y) red, (double X, double Y) green, (double X, double Y) blue, IccVersion version)
    {
        var adaptation = ToD50(White(D65));
        return IccProfileWriter.Write(
            new RgbSpaceProfile
            {
                Created = Made,
                Description = Said(name),
                Copyright = Free,
                Curve = curve,
                Primaries = Multiply(adaptation, Primaries(red, green, blue)),
                ChromaticAdaptation = adaptation,
            },
            version);
    }

    private static IReadOnlyList<LocalText> Said(string text) => [new("en", "GB", text)];

    private static double[] White((double X, double Y) xy) => [xy.X / xy.Y, 1, (1 - xy.X - xy.Y) / xy.Y];

    // Columns scaled so that all three together give the white.
    private static Matrix3 Primaries(params ReadOnlySpan<(double X, double Y)> xy)
    {
        var (r, g, b) = (White(xy[0]), White(xy[1]), White(xy[2]));
        var plain = new Matrix3(r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]);
        Span<double> s = stackalloc double[3];
        plain.Inverse()!.Apply(White(D65), s);
        return Multiply(plain, new Matrix3(s[0], 0, 0, 0, s[1], 0, 0, 0, s[2]));
    }

    private static Matrix3 ToD50(double[] white)
    {
        Span<double> from = stackalloc double[3];
        Span<double> to = stackalloc double[3];
        Bradford.Apply(white, from);
        Bradford.Apply([XyzNumber.D50.X, XyzNumber.D50.Y, XyzNumber.D50.Z], to);
        var scale = new Matrix3(to[0] / from[0], 0, 0, 0, to[1] / from[1], 0, 0, 0, to[2] / from[2]);
        return Multiply(Bradford.Inverse()!, Multiply(scale, Bradford));
    }

    private static Matrix3 Multiply(Matrix3 left, Matrix3 right)
    {
        Span<double> numbers = stackalloc double[9];
        for (var i = 0; i < 9; i++)
        {
            for (var k = 0; k < 3; k++)
            {
                numbers[i] += left[i / 3, k] * right[k, i % 3];
            }
        }

        return new(numbers);
    }
}
