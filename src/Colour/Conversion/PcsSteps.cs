using System.Runtime.Intrinsics;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Conversion;

/// <summary>XYZ to L*a*b*, four pixels at a time; both as numbers of 0 to 1 as version 4 encodes them.</summary>
internal sealed class XyzToLabStep : PixelStep
{
    private const double Knee = 24.0 / 116 * (24.0 / 116) * (24.0 / 116);
    private const double Slope = 841.0 / 108;

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        var (x, y, z) = (pixels.Values[0], pixels.Values[1], pixels.Values[2]);
        for (var i = 0; i < pixels.WholeVectors; i += 4)
        {
            var fx = F(Wide(x, i) * (PixelSteps.MostXyz / XyzNumber.D50.X));
            var fy = F(Wide(y, i) * (PixelSteps.MostXyz / XyzNumber.D50.Y));
            var fz = F(Wide(z, i) * (PixelSteps.MostXyz / XyzNumber.D50.Z));
            Keep(((fy * 116) - Vector256.Create(16.0)) * 0.01, x, i);
            Keep((((fx - fy) * 500) + Vector256.Create(128.0)) * (1 / 255.0), y, i);
            Keep((((fy - fz) * 200) + Vector256.Create(128.0)) * (1 / 255.0), z, i);
        }
    }

    private static Vector256<double> F(Vector256<double> t) => Vector256.ConditionalSelect(
        Vector256.GreaterThan(t, Vector256.Create(Knee)), CubeRoot(t), (t * Slope) + Vector256.Create(16.0 / 116));

    /// <summary>Cube roots of numbers above 0: a guess from the exponent, made better twice by Halley's rule, to 1e-13 of the root.</summary>
    internal static Vector256<double> CubeRoot(Vector256<double> x)
    {
        const float third = 1 / 3f;
        const float bias = 709_921_077; // two thirds of the bits of 1, less what evens out the error of the guess
        var bits = Vector128.Narrow(x.GetLower(), x.GetUpper()).AsInt32();
        var guess = Vector128.ConvertToInt32((Vector128.ConvertToSingle(bits) * third) + Vector128.Create(bias)).AsSingle();
        var y = Vector256.Create(Vector128.WidenLower(guess), Vector128.WidenUpper(guess));
        return Better(Better(y, x), x);

        static Vector256<double> Better(Vector256<double> y, Vector256<double> x)
        {
            var cube = y * y * y;
            return y * (cube + x + x) / (cube + cube + x);
        }
    }
}

/// <summary>L*a*b* to XYZ, four pixels at a time; both as numbers of 0 to 1 as version 4 encodes them.</summary>
internal sealed class LabToXyzStep : PixelStep
{
    private const double Knee = 24.0 / 116;
    private const double Slope = 108.0 / 841;

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        var (l, a, b) = (pixels.Values[0], pixels.Values[1], pixels.Values[2]);
        for (var i = 0; i < pixels.WholeVectors; i += 4)
        {
            var y = ((Wide(l, i) * 100) + Vector256.Create(16.0)) * (1 / 116.0);
            var x = y + (((Wide(a, i) * 255) - Vector256.Create(128.0)) * 0.002);
            var z = y - (((Wide(b, i) * 255) - Vector256.Create(128.0)) * 0.005);
            Keep(Cube(x) * (XyzNumber.D50.X / PixelSteps.MostXyz), l, i);
            Keep(Cube(y) * (XyzNumber.D50.Y / PixelSteps.MostXyz), a, i);
            Keep(Cube(z) * (XyzNumber.D50.Z / PixelSteps.MostXyz), b, i);
        }
    }

    private static Vector256<double> Cube(Vector256<double> f) => Vector256.ConditionalSelect(
        Vector256.GreaterThan(f, Vector256.Create(Knee)), f * f * f, (f - Vector256.Create(16.0 / 116)) * Slope);
}
