using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Conversion;

/// <summary>Codes to codes by curves of 16 bits, in the whole numbers in which the reference engine reads them (from memory of its source).</summary>
/// <remarks>A curve of few entries is read as it is, eight codes at a time: it stays near the core, where a table of all codes of
/// each channel does not. One that changes nothing is passed by.</remarks>
internal sealed class CodeTableStep : PixelStep
{
    // Above it a table of all codes is as near, and places in the curve need more than 32 bits.
    private const int MostEntriesNear = 8_192;

    private readonly ushort[][] curves;
    private readonly bool[] same;
    private readonly bool wide;

    /// <param name="curves">One a channel.</param>
    /// <param name="narrow">By tables even where the machine has vectors: both give the same codes.</param>
    public CodeTableStep(IReadOnlyList<SampledCurve> curves, bool narrow = false)
    {
        Tables = [.. curves.Select(Of)];
        same = [.. Tables.Select(IsSame)];
        // One more entry, that is read and counts for nothing.
        this.curves = [.. curves.Select(c => (ushort[])[.. c.Entries, c.Entries[^1]])];
        wide = Avx2.IsSupported && !narrow;
    }

    /// <summary>One table of all codes a channel.</summary>
    public ushort[][] Tables { get; }

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        for (var k = 0; k < Tables.Length; k++)
        {
            if (same[k])
            {
                continue;
            }

            if (wide && curves[k].Length <= MostEntriesNear)
            {
                Between(curves[k], pixels.Codes[k], pixels.Count);
                continue;
            }

            var (table, plane) = (Tables[k], pixels.Codes[k]);
            for (var i = 0; i < pixels.Count; i++)
            {
                plane[i] = table[plane[i]];
            }
        }
    }

    /// <summary>A 16-bit curve at every code.</summary>
    public static ushort[] Of(SampledCurve curve)
    {
        var (entries, table) = (curve.Entries.ToArray(), new ushort[ushort.MaxValue + 1]);
        var last = entries.Length - 1;
        for (var code = 0; code < ushort.MaxValue; code++)
        {
            var at = Fixed.Of((long)code * last); // more than 32 bits from 32,769 entries on, which the reference engine does not take
            var (below, rest) = (entries[at >> 16], (int)(at & 0xFFFF));
            var step = unchecked(((entries[(at >> 16) + 1] - below) * rest) + 0x8000);
            table[code] = unchecked((ushort)(below + (step >> 16)));
        }

        table[ushort.MaxValue] = entries[last];
        return table;
    }

    private static bool IsSame(ushort[] table)
    {
        for (var code = 0; code < table.Length; code++)
        {
            if (table[code] != code)
            {
                return false;
            }
        }

        return true;
    }

    // One load has the entry below and the one above.
    private static unsafe void Between(ushort[] curve, ushort[] plane, int count)
    {
        unchecked
        {
            var (low, last) = (Vector256.Create(0xFFFF), Vector256.Create(curve.Length - 2));
            fixed (ushort* entries = curve, codes = plane)
            {
                for (var i = 0; i < count; i += 8)
                {
                    var at = WideClut.Place(codes + i, last);
                    var both = Avx2.GatherVector256((int*)entries, at >>> 16, sizeof(ushort));
                    var below = both & low;
                    var value = (((below << 16) + Vector256.Create(0x8000)) + Avx2.MultiplyLow((both >>> 16) - below, at & low)) >>> 16;
                    Sse41.PackUnsignedSaturate(value.GetLower(), value.GetUpper()).Store(codes + i);
                }
            }
        }
    }
}

/// <summary>Codes to values by a table of all codes.</summary>
internal sealed class ValueTableStep : PixelStep
{
    /// <summary>Each code as a share of the highest.</summary>
    public static readonly float[] Plain = [.. Enumerable.Range(0, ushort.MaxValue + 1).Select(c => c / (float)ushort.MaxValue)];

    private readonly float[][] tables;

    /// <param name="tables">One a channel; those that are alike are kept once, which is nearer to the core.</param>
    public ValueTableStep(IReadOnlyList<float[]> tables)
    {
        if (tables.Any(t => t.Length <= ushort.MaxValue))
        {
            throw new ArgumentException("A table has a value for each code.", nameof(tables));
        }

        this.tables = [.. tables];
        for (var k = 1; k < tables.Count; k++)
        {
            this.tables[k] = this.tables[..k].FirstOrDefault(t => t.AsSpan().SequenceEqual(tables[k])) ?? tables[k];
        }
    }

    /// <summary>Takes in pixels of three channels side by side and makes values of them, without a stop in planes of codes.</summary>
    public unsafe void Take(ReadOnlySpan<ushort> pixels, PixelPlanes planes)
    {
        unchecked
        {
            planes.Count = pixels.Length / 3;
            fixed (ushort* codes = pixels)
            fixed (float* x = planes.Values[0], y = planes.Values[1], z = planes.Values[2], ofX = tables[0], ofY = tables[1], ofZ = tables[2])
            {
                var code = codes;
                for (var i = 0; i < planes.Count; i++, code += 3)
                {
                    (x[i], y[i], z[i]) = (ofX[code[0]], ofY[code[1]], ofZ[code[2]]); // within: the tables have every code
                }
            }
        }
    }

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        for (var k = 0; k < tables.Length; k++)
        {
            ref var table = ref MemoryMarshal.GetArrayDataReference(tables[k]);
            var from = pixels.Codes[k].AsSpan(0, pixels.Count);
            var to = pixels.Values[k].AsSpan(0, pixels.Count);
            for (var i = 0; i < to.Length; i++)
            {
                to[i] = Unsafe.Add(ref table, (nint)from[i]); // within: the table has every code
            }
        }
    }
}
