using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Conversion;

/// <summary>XYZ to L*a*b*, eight pixels at a time; both as numbers of 0 to 1 as version 4 encodes them.</summary>
internal sealed class XyzToLabStep : PixelStep
{
    private const double Knee = 24.0 / 116 * (24.0 / 116) * (24.0 / 116);
    private const double Slope = 841.0 / 108;

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        // A plane after the other: so short a loop has many pixels on their way at once.
        for (var k = 0; k < 3; k++)
        {
            F(pixels.Values[k], pixels.Rests[k], pixels.WholeVectors, PixelSteps.MostXyz / (k == 0 ? XyzNumber.D50.X : k == 1 ? XyzNumber.D50.Y : XyzNumber.D50.Z));
        }

        var (x, y, z) = (pixels.Values[0], pixels.Values[1], pixels.Values[2]);
        var (restX, restY, restZ) = (pixels.Rests[0], pixels.Rests[1], pixels.Rests[2]);
        for (var i = 0; i < pixels.WholeVectors; i += 4)
        {
            var fx = Wide(x, i) + Wide(restX, i);
            var fy = Wide(y, i) + Wide(restY, i);
            var fz = Wide(z, i) + Wide(restZ, i);
            Keep(((fy * 116) - Vector256.Create(16.0)) * 0.01, x, i);
            Keep((((fx - fy) * 500) + Vector256.Create(128.0)) * (1 / 255.0), y, i);
            Keep((((fy - fz) * 200) + Vector256.Create(128.0)) * (1 / 255.0), z, i);
        }
    }

    // Values times a scale, in place, and what single precision leaves of them.
    private static void F(float[] plane, float[] rests, int count, double scale)
    {
        var by = (float)scale;
        var (most, least) = (Vector256.Create(by), Vector256.Create((float)(scale - by)));
        for (var i = 0; i < count; i += 8)
        {
            var value = Vector256.LoadUnsafe(ref plane[0], (nuint)i);
            var t = value * most;
            var root = CubeRoot(t, Vector256.FusedMultiplyAdd(value, least, Vector256.FusedMultiplyAdd(value, most, -t)), out var rest);
            if (Vector256.LessThanOrEqualAny(t, Vector256.Create((float)Knee)))
            {
                // Near the knee both lines are the same: which one it is need not be known to the last digit.
                var (low, high) = (Line(Wide(plane, i) * scale), Line(Wide(plane, i + 4) * scale));
                var line = Vector256.Narrow(low, high);
                var (lineLow, lineHigh) = Vector256.Widen(line);
                var below = Vector256.LessThanOrEqual(t, Vector256.Create((float)Knee));
                root = Vector256.ConditionalSelect(below, line, root);
                rest = Vector256.ConditionalSelect(below, Vector256.Narrow(low - lineLow, high - lineHigh), rest);
            }

            root.StoreUnsafe(ref plane[0], (nuint)i);
            rest.StoreUnsafe(ref rests[0], (nuint)i);
        }

        static Vector256<double> Line(Vector256<double> t) => (t * Slope) + Vector256.Create(16.0 / 116);
    }

    /// <summary>Cube roots of numbers above 0, each in two parts, as two parts whose sum is within 1e-11 of the root.</summary>
    /// <remarks>A guess from the exponent is made better by Halley's rule in single precision. The same rule again, with what is
    /// still wrong found exactly by fused products, gives the second part.</remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<float> CubeRoot(Vector256<float> x, Vector256<float> rest, out Vector256<float> more)
    {
        const float third = 1 / 3f;
        const float bias = 709_921_077; // two thirds of the bits of 1, less what evens out the error of the guess
        var two = Vector256.Create(2f);
        var y = Vector256.ConvertToInt32Native(Vector256.FusedMultiplyAdd(Vector256.ConvertToSingle(x.AsInt32()), Vector256.Create(third), Vector256.Create(bias))).AsSingle();
        var cube = y * y * y;
        y = y * Vector256.FusedMultiplyAdd(two, x, cube) / Vector256.FusedMultiplyAdd(two, cube, x);

        var square = y * y;
        var squareRest = Vector256.FusedMultiplyAdd(y, y, -square);
        cube = square * y;
        var cubeRest = Vector256.FusedMultiplyAdd(squareRest, y, Vector256.FusedMultiplyAdd(square, y, -cube));
        more = y * (x - cube + (rest - cubeRest)) / Vector256.FusedMultiplyAdd(two, cube, x);
        return y;
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
