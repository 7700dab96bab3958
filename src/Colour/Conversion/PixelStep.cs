using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Goodsheet.Colour.Icc;

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
        return Vector256.Create(Vector128.WidenLower(four), Vector128.WidenUpper(four));
    }

    private protected static void Keep(Vector256<double> four, float[] plane, int at) =>
        Vector128.Narrow(four.GetLower(), four.GetUpper()).StoreUnsafe(ref plane[0], (nuint)at);
}

/// <summary>Codes to codes by a table of all codes: curves of 16 bits.</summary>
internal sealed class CodeTableStep(ushort[][] tables) : PixelStep
{
    /// <summary>One table a channel.</summary>
    public ushort[][] Tables => tables;

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        for (var k = 0; k < tables.Length; k++)
        {
            var (table, plane) = (tables[k], pixels.Codes[k]);
            for (var i = 0; i < pixels.Count; i++)
            {
                plane[i] = table[plane[i]];
            }
        }
    }

    /// <summary>A 16-bit curve at every code, in the whole numbers in which the reference engine reads it (from memory of its source).</summary>
    public static ushort[] Of(SampledCurve curve)
    {
        var (entries, table) = (curve.Entries.ToArray(), new ushort[ushort.MaxValue + 1]);
        var last = entries.Length - 1;
        for (var code = 0; code < ushort.MaxValue; code++)
        {
            var at = Fixed.Of(code * last);
            var (below, rest) = (entries[at >> 16], at & 0xFFFF);
            var step = unchecked(((entries[(at >> 16) + 1] - below) * rest) + 0x8000);
            table[code] = unchecked((ushort)(below + (step >> 16)));
        }

        table[ushort.MaxValue] = entries[last];
        return table;
    }
}

/// <summary>Codes to values by a table of all codes.</summary>
internal sealed class ValueTableStep(float[][] tables) : PixelStep
{
    /// <summary>Each code as a share of the highest.</summary>
    public static readonly float[] Plain = [.. Enumerable.Range(0, ushort.MaxValue + 1).Select(c => c / (float)ushort.MaxValue)];

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        for (var k = 0; k < tables.Length; k++)
        {
            var (table, from, to) = (tables[k], pixels.Codes[k], pixels.Values[k]);
            for (var i = 0; i < pixels.Count; i++)
            {
                to[i] = table[from[i]];
            }
        }
    }
}

/// <summary>Values to the nearest codes, clipped; halves go up.</summary>
internal sealed class RoundStep(int channels) : PixelStep
{
    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        for (var k = 0; k < channels; k++)
        {
            var (from, to) = (pixels.Values[k], pixels.Codes[k]);
            if (Avx.IsSupported)
            {
                // Two vectors at once: planes have room for whole pairs.
                for (var i = 0; i < pixels.Count; i += 8)
                {
                    var low = Avx.ConvertToVector128Int32WithTruncation(Rounded(Wide(from, i)));
                    var high = Avx.ConvertToVector128Int32WithTruncation(Rounded(Wide(from, i + 4)));
                    Sse41.PackUnsignedSaturate(low, high).StoreUnsafe(ref to[0], (nuint)i);
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

    // Clipped before it is rounded: what comes out is within 16 bits, and cut to whole codes by whoever keeps it. No
    // number is not at least 0, and becomes 0.
    private static Vector256<double> Rounded(Vector256<double> values)
    {
        var code = (values * Full) + Vector256.Create(0.5);
        var clipped = Vector256.ConditionalSelect(Vector256.GreaterThan(code, Vector256<double>.Zero), Vector256.Min(code, Vector256.Create(Full + 0.5)), Vector256<double>.Zero);
        return Vector256.Round(clipped * 65_536) * (1 / 65_536.0);
    }

    /// <summary>The nearest code of a value; no number gives 0.</summary>
    /// <remarks>As the reference engine rounds: first to 1/65536 of a code, then halves up.</remarks>
    public static ushort Code(float value)
    {
        var code = (value * Full) + 0.5;
        return code >= Full ? ushort.MaxValue : code > 0 ? (ushort)Math.Min(ushort.MaxValue, (long)Math.Round(code * 65_536) >> 16) : (ushort)0;
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
    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        if (rows is [{ Length: 3 }, _, _])
        {
            ApplyThree(pixels);
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

    // The same sums in the same order: most pictures go this way.
    private void ApplyThree(PixelPlanes pixels)
    {
        var (a, b, c) = (pixels.Values[0], pixels.Values[1], pixels.Values[2]);
        var (r0, r1, r2) = (rows[0], rows[1], rows[2]);
        var (o0, o1, o2) = (offset[0], offset[1], offset[2]);
        for (var i = 0; i < pixels.WholeVectors; i += 4)
        {
            var (x, y, z) = (Wide(a, i), Wide(b, i), Wide(c, i));
            Keep((x * r0[0]) + (y * r0[1]) + (z * r0[2]) + Vector256.Create(o0), a, i);
            Keep((x * r1[0]) + (y * r1[1]) + (z * r1[2]) + Vector256.Create(o1), b, i);
            Keep((x * r2[0]) + (y * r2[1]) + (z * r2[2]) + Vector256.Create(o2), c, i);
        }
    }
}

/// <summary>Places in a table in 1/65536 of a step, where the highest code is a whole step.</summary>
internal static class Fixed
{
    /// <summary>A code times a number of steps, as that many steps and 1/65536 of them.</summary>
    public static int Of(int product) => product + ((product + 0x7FFF) / 0xFFFF);
}
