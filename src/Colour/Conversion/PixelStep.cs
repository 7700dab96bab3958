using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Goodsheet.Colour.Conversion;

/// <summary>One step of a conversion, on many pixels at once.</summary>
internal abstract class PixelStep
{
    private protected const double Full = ushort.MaxValue;

    /// <summary>Takes the pixels through, in place.</summary>
    public abstract void Apply(PixelPlanes pixels);

    private protected static Vector256<double> Wide(float[] plane, int at)
    {
        var four = Vector128.LoadUnsafe(ref plane[0], (nuint)at);
        return Avx.IsSupported ? Avx.ConvertToVector256Double(four) : Vector256.Create(Vector128.WidenLower(four), Vector128.WidenUpper(four));
    }

    private protected static Vector256<double> Single(Vector256<double> four)
    {
        if (Avx.IsSupported)
        {
            return Avx.ConvertToVector256Double(Avx.ConvertToVector128Single(four));
        }

        var single = Vector128.Narrow(four.GetLower(), four.GetUpper());
        return Vector256.Create(Vector128.WidenLower(single), Vector128.WidenUpper(single));
    }

    private protected static void Keep(Vector256<double> four, float[] plane, int at) =>
        (Avx.IsSupported ? Avx.ConvertToVector128Single(four) : Vector128.Narrow(four.GetLower(), four.GetUpper())).StoreUnsafe(ref plane[0], (nuint)at);
}

/// <summary>Values to the nearest codes, clipped; halves go up.</summary>
/// <param name="channels">How many.</param>
/// <param name="narrow">Without the vectors of this machine: both give the same codes.</param>
internal sealed class RoundStep(int channels, bool narrow = false) : PixelStep
{
    private const double Parts = 65_536; // of a code

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        for (var k = 0; k < channels; k++)
        {
            var (from, to) = (pixels.Values[k], pixels.Codes[k]);
            if (Avx.IsSupported && !narrow)
            {
                for (var i = 0; i < pixels.Count; i += 8)
                {
                    var codes = Sse2.PackSignedSaturate(Lowered(Wide(from, i)), Lowered(Wide(from, i + 4)));
                    (codes.AsUInt16() ^ Vector128.Create((ushort)0x8000)).StoreUnsafe(ref to[0], (nuint)i);
                }

                continue;
            }

            for (var i = 0; i < pixels.WholeVectors; i += 4)
            {
                var codes = Rounded(Wide(from, i));
                for (var j = 0; j < 4; j++)
                {
                    to[i + j] = (ushort)codes[j];
                }
            }
        }
    }

    // Codes less 32768, so that they are whole numbers of 32 bits in parts of a code. What is too low for that, and no number,
    // is converted to the lowest of them.
    private static Vector128<int> Lowered(Vector256<double> values)
    {
        var parts = (values * (Full * Parts)) + Vector256.Create((0.5 - 32_768) * Parts);
        return Avx.ConvertToVector128Int32(Avx.Min(Vector256.Create((double)int.MaxValue), parts)) >> 16;
    }

    // Clipped before it is rounded: what comes out is within 16 bits, and cut to whole codes by whoever keeps it. No
    // number is not at least 0, and becomes 0.
    private static Vector256<double> Rounded(Vector256<double> values)
    {
        var code = (values * Full) + Vector256.Create(0.5);
        var clipped = Vector256.ConditionalSelect(Vector256.GreaterThan(code, Vector256<double>.Zero), Vector256.Min(code, Vector256.Create(Full + 0.5)), Vector256<double>.Zero);
        return Vector256.Round(clipped * Parts) * (1 / Parts);
    }

    /// <summary>The nearest code of a value; no number gives 0.</summary>
    /// <remarks>As the reference engine rounds: first to 1/65536 of a code, then halves up.</remarks>
    public static ushort Code(float value)
    {
        var code = (value * Full) + 0.5;
        return code >= Full ? ushort.MaxValue : code > 0 ? (ushort)Math.Min(ushort.MaxValue, (long)Math.Round(code * Parts) >> 16) : (ushort)0;
    }
}

/// <summary>Values through functions of one value each, one a channel.</summary>
internal sealed class FunctionStep(Func<float, float>[] functions) : PixelStep
{
    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        for (var k = 0; k < functions.Length; k++)
        {
            var (function, plane) = (functions[k], pixels.Values[k]);
            for (var i = 0; i < pixels.Count; i++)
            {
                plane[i] = function(plane[i]);
            }
        }
    }
}

/// <summary>Values through a matrix with an offset; what comes out is rounded to single precision and no further.</summary>
/// <param name="rows">A row of factors for each channel out.</param>
/// <param name="offset">One number a channel out.</param>
internal sealed class AffineStep(double[][] rows, double[] offset) : PixelStep
{
    private (double[] Factors, double[] More)? scales;

    /// <summary>Whether each channel goes for itself.</summary>
    public bool IsScale => rows is [[_, 0, 0], [0, _, 0], [0, 0, _]];

    /// <summary>Whether another step can be made in the same go, to the same values as one after the other.</summary>
    public bool TakesScale => rows is [[_, _, _], _, _] && !IsScale && scales is null;

    /// <summary>This step, and then one that scales, in one go.</summary>
    public AffineStep With(AffineStep scale) => new(rows, offset) { scales = scale.Scales };

    private (double[] Factors, double[] More) Scales => ([rows[0][0], rows[1][1], rows[2][2]], offset);

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        if (IsScale)
        {
            ApplyDiagonal(pixels);
            return;
        }

        if (rows is [[_, _, _], _, _])
        {
            if (scales is var (factors, more))
            {
                ApplyBoth(pixels, factors, more);
            }
            else
            {
                ApplyThree(pixels);
            }

            return;
        }

        var sums = new Vector256<double>[rows.Length];
        for (var i = 0; i < pixels.WholeVectors; i += 4)
        {
            for (var m = 0; m < rows.Length; m++)
            {
                var sum = Vector256<double>.Zero;
                for (var n = 0; n < rows[m].Length; n++)
                {
                    sum += Wide(pixels.Values[n], i) * rows[m][n];
                }

                sums[m] = sum + Vector256.Create(offset[m]);
            }

            for (var m = 0; m < rows.Length; m++)
            {
                Keep(sums[m], pixels.Values[m], i);
            }
        }
    }

    // Most pictures go this way. The sums are the same before they are rounded to single precision.
    private void ApplyThree(PixelPlanes pixels)
    {
        var (a, b, c) = (pixels.Values[0], pixels.Values[1], pixels.Values[2]);
        var (m00, m01, m02, o0) = (Vector256.Create(rows[0][0]), Vector256.Create(rows[0][1]), Vector256.Create(rows[0][2]), Vector256.Create(offset[0]));
        var (m10, m11, m12, o1) = (Vector256.Create(rows[1][0]), Vector256.Create(rows[1][1]), Vector256.Create(rows[1][2]), Vector256.Create(offset[1]));
        var (m20, m21, m22, o2) = (Vector256.Create(rows[2][0]), Vector256.Create(rows[2][1]), Vector256.Create(rows[2][2]), Vector256.Create(offset[2]));
        for (var i = 0; i < pixels.WholeVectors; i += 4)
        {
            var (x, y, z) = (Wide(a, i), Wide(b, i), Wide(c, i));
            Keep(Sum(x, m00, y, m01, z, m02, o0), a, i);
            Keep(Sum(x, m10, y, m11, z, m12, o1), b, i);
            Keep(Sum(x, m20, y, m21, z, m22, o2), c, i);
        }
    }

    // What comes out of the matrix is rounded to single precision before it is scaled, as it is when it waits in a plane.
    private void ApplyBoth(PixelPlanes pixels, double[] factors, double[] more)
    {
        var (a, b, c) = (pixels.Values[0], pixels.Values[1], pixels.Values[2]);
        var (m00, m01, m02, o0) = (Vector256.Create(rows[0][0]), Vector256.Create(rows[0][1]), Vector256.Create(rows[0][2]), Vector256.Create(offset[0]));
        var (m10, m11, m12, o1) = (Vector256.Create(rows[1][0]), Vector256.Create(rows[1][1]), Vector256.Create(rows[1][2]), Vector256.Create(offset[1]));
        var (m20, m21, m22, o2) = (Vector256.Create(rows[2][0]), Vector256.Create(rows[2][1]), Vector256.Create(rows[2][2]), Vector256.Create(offset[2]));
        var (s0, s1, s2) = (Vector256.Create(factors[0]), Vector256.Create(factors[1]), Vector256.Create(factors[2]));
        var (p0, p1, p2) = (Vector256.Create(more[0]), Vector256.Create(more[1]), Vector256.Create(more[2]));
        for (var i = 0; i < pixels.WholeVectors; i += 4)
        {
            var (x, y, z) = (Wide(a, i), Wide(b, i), Wide(c, i));
            Keep(Vector256.FusedMultiplyAdd(Single(Sum(x, m00, y, m01, z, m02, o0)), s0, p0), a, i);
            Keep(Vector256.FusedMultiplyAdd(Single(Sum(x, m10, y, m11, z, m12, o1)), s1, p1), b, i);
            Keep(Vector256.FusedMultiplyAdd(Single(Sum(x, m20, y, m21, z, m22, o2)), s2, p2), c, i);
        }
    }

    private static Vector256<double> Sum(
        Vector256<double> x, Vector256<double> ofX, Vector256<double> y, Vector256<double> ofY, Vector256<double> z, Vector256<double> ofZ, Vector256<double> offset) =>
        Vector256.FusedMultiplyAdd(x, ofX, Vector256.FusedMultiplyAdd(y, ofY, Vector256.FusedMultiplyAdd(z, ofZ, offset)));

    private void ApplyDiagonal(PixelPlanes pixels)
    {
        for (var k = 0; k < 3; k++)
        {
            var (plane, factor, more) = (pixels.Values[k], Vector256.Create(rows[k][k]), Vector256.Create(offset[k]));
            for (var i = 0; i < pixels.WholeVectors; i += 4)
            {
                Keep(Vector256.FusedMultiplyAdd(Wide(plane, i), factor, more), plane, i);
            }
        }
    }
}

/// <summary>Places in a table in 1/65536 of a step, where the highest code is a whole step.</summary>
internal static class Fixed
{
    /// <summary>A code times a number of steps, as that many steps and 1/65536 of them.</summary>
    public static int Of(int product) => product + ((product + 0x7FFF) / 0xFFFF);

    /// <summary>The same where the product may have more than 32 bits.</summary>
    public static long Of(long product) => product + ((product + 0x7FFF) / 0xFFFF);
}
