using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Goodsheet.Colour.Conversion;

/// <summary>Takes 16-bit RGB pixels through a <see cref="GridTable"/> by tetrahedral interpolation, eight at a time where the machine can.</summary>
/// <remarks>
/// Kasson, Nin, Plouffe, Hafner 1995 (see LatticeCell). The fractions are sorted by carrying the axis' number in the low
/// bits of each, so that largest and smallest also say which way the walk through the cell goes.
/// </remarks>
public static class TetrahedralKernel
{
    private const int Together = ThreePlanes.Together;
    private const float Parts = 16_777_216; // of a cell: all that single precision has

    // Three codes of each of two pixels of four.
    private static readonly Vector128<byte> WithoutSpare = Vector128.Create((byte)0, 1, 2, 3, 4, 5, 8, 9, 10, 11, 12, 13, 0x80, 0x80, 0x80, 0x80);

    /// <summary>Converts pixels on the calling thread.</summary>
    /// <param name="table">The conversion.</param>
    /// <param name="source">R, G, B side by side.</param>
    /// <param name="destination">As long.</param>
    /// <exception cref="ArgumentException">They are not whole pixels, or not as many.</exception>
    public static void Convert(GridTable table, ReadOnlySpan<ushort> source, Span<ushort> destination)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (source.Length % 3 != 0 || destination.Length != source.Length)
        {
            throw new ArgumentException("Whole pixels of three channels, as many out as in.", nameof(destination));
        }

        var done = Avx2.IsSupported && Fma.IsSupported ? ConvertWide(table, source, destination) : 0;
        ConvertNarrow(table, source[done..], destination[done..]);
    }

    /// <summary>The same without vector instructions beyond what every machine has; the other is tested against it.</summary>
    internal static void ConvertNarrow(GridTable table, ReadOnlySpan<ushort> source, Span<ushort> destination)
    {
        var last = table.Points - 1;
        var scale = last / (float)ushort.MaxValue;
        var (strideR, strideG) = (table.Points * table.Points, table.Points);
        ReadOnlySpan<ushort> nodes = table.Nodes;
        for (var i = 0; i < source.Length; i += 3)
        {
            var (r, g, b) = (source[i] * scale, source[i + 1] * scale, source[i + 2] * scale);
            var (r0, g0, b0) = (Math.Min((int)r, last - 1), Math.Min((int)g, last - 1), Math.Min((int)b, last - 1));
            var (fr, fg, fb) = (r - r0, g - g0, b - b0);
            var origin = (r0 * strideR) + (g0 * strideG) + b0;
            var (hi, mid, lo, one, two) = (fr, fg, fb) switch
            {
                _ when fr >= fg && fg >= fb => (fr, fg, fb, strideR, strideR + strideG),
                _ when fr >= fb && fb >= fg => (fr, fb, fg, strideR, strideR + 1),
                _ when fb >= fr && fr >= fg => (fb, fr, fg, 1, strideR + 1),
                _ when fg >= fr && fr >= fb => (fg, fr, fb, strideG, strideR + strideG),
                _ when fg >= fb && fb >= fr => (fg, fb, fr, strideG, strideG + 1),
                _ => (fb, fg, fr, 1, strideG + 1),
            };
            var (w0, w1, w2, w3) = (1 - hi, hi - mid, mid - lo, lo);
            var (n0, n1, n2, n3) = (origin * 4, (origin + one) * 4, (origin + two) * 4, (origin + strideR + strideG + 1) * 4);
            for (var k = 0; k < 3; k++)
            {
                var value = (nodes[n0 + k] * w0) + (nodes[n1 + k] * w1) + (nodes[n2 + k] * w2) + (nodes[n3 + k] * w3);
                destination[i + k] = (ushort)MathF.Round(value);
            }
        }
    }

    // Returns how many values were converted.
    [SkipLocalsInit]
    private static unsafe int ConvertWide(GridTable table, ReadOnlySpan<ushort> source, Span<ushort> destination)
    {
        // Checked arithmetic and conversions that look for what is out of range took as long as all the rest.
        unchecked
        {
            var (points, last) = (table.Points, table.Points - 1);
            var scale = Vector256.Create(last / (float)ushort.MaxValue);
            var most = Vector256.Create(last - 1);
            var (stepR, stepG, stepB) = (points * points * GridTable.Stride, points * GridTable.Stride, GridTable.Stride);
            var all = stepR + stepG + stepB;
            var steps = Vector256.Create(stepR, stepG, stepB, 0, 0, 0, 0, 0);
            var (axis, rest, second) = (Vector256.Create(3), Vector256.Create(~3), Vector256.Create(2));
            var part = Vector256.Create(1 / Parts);
            var count = source.Length / 3 / Together * Together;
            Corners corners; // no stackalloc: a method with one is compiled once, before it is known what is worth it
            var at = corners.At;
            fixed (ushort* nodes = table.Nodes, from = source, to = destination)
            {
                for (var i = 0; i < count; i += Together)
                {
                    var red = ThreePlanes.Split(ref from[3 * i], out var green, out var blue);
                    var r0 = Place(red, scale, most, out var kr);
                    var g0 = Place(green, scale, most, out var kg);
                    var b0 = Place(blue, scale, most, out var kb);
                    kr &= rest;
                    kg = (kg & rest) | Vector256<int>.One;
                    kb = (kb & rest) | second;
                    var (upper, lower) = (Avx2.Max(kr, kg), Avx2.Min(kr, kg));
                    var (hi, lo) = (Avx2.Max(upper, kb), Avx2.Min(lower, kb));
                    var mid = Avx2.Max(lower, Avx2.Min(upper, kb));
                    var origin = Avx2.MultiplyLow(r0, Vector256.Create(stepR)) + Avx2.MultiplyLow(g0, Vector256.Create(stepG)) + (b0 << 2);
                    origin.Store(at);
                    (origin + Avx2.PermuteVar8x32(steps, hi & axis)).Store(at + Together);
                    (origin + Vector256.Create(all) - Avx2.PermuteVar8x32(steps, lo & axis)).Store(at + (2 * Together));
                    var fh = Avx.ConvertToVector256Single(hi & rest) * part;
                    var fm = Avx.ConvertToVector256Single(mid & rest) * part;
                    var fl = Avx.ConvertToVector256Single(lo & rest) * part;
                    var (w0, w1, w2) = (Vector256<float>.One - fh, fh - fm, fm - fl);
                    var d = to + (3 * i);
                    Two(nodes, at, all, w0, w1, w2, fl, Vector256.Create(0, 0, 0, 0, 1, 1, 1, 1), d);
                    Two(nodes, at + 2, all, w0, w1, w2, fl, Vector256.Create(2, 2, 2, 2, 3, 3, 3, 3), d + 6);
                    Two(nodes, at + 4, all, w0, w1, w2, fl, Vector256.Create(4, 4, 4, 4, 5, 5, 5, 5), d + 12);
                    Two(nodes, at + 6, all, w0, w1, w2, fl, Vector256.Create(6, 6, 6, 6, 7, 7, 7, 7), d + 18);
                }
            }

            return count * 3;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static unsafe Vector256<float> Nodes(ushort* first, ushort* second) =>
        Avx.ConvertToVector256Single(Avx2.ConvertToVector256Int32(Vector128.Create(*(ulong*)first, *(ulong*)second).AsUInt16()));

    private unsafe struct Corners
    {
        public fixed int At[3 * Together];
    }

    // The node below each code, and how far behind it the code lies, as a whole number of parts of a cell.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Place(Vector128<ushort> codes, Vector256<float> scale, Vector256<int> most, out Vector256<int> key)
    {
        var at = Avx.ConvertToVector256Single(Avx2.ConvertToVector256Int32(codes)) * scale;
        var below = Avx2.Min(Avx.ConvertToVector256Int32WithTruncation(at), most);
        key = Avx.ConvertToVector256Int32WithTruncation((at - Avx.ConvertToVector256Single(below)) * Parts);
        return below;
    }

    // Two pixels, a node of each in one vector; which ones of the eight, the pick says.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static unsafe void Two(
        ushort* nodes, int* at, int all, Vector256<float> w0, Vector256<float> w1, Vector256<float> w2, Vector256<float> w3, Vector256<int> pick, ushort* to)
    {
        unchecked
        {
            var first = nodes + at[0];
            var second = nodes + at[1];
            var sum = Nodes(first, second) * Avx2.PermuteVar8x32(w0, pick);
            sum = Fma.MultiplyAdd(
                Nodes(nodes + at[Together], nodes + at[Together + 1]), Avx2.PermuteVar8x32(w1, pick), sum);
            sum = Fma.MultiplyAdd(
                Nodes(nodes + at[2 * Together], nodes + at[(2 * Together) + 1]), Avx2.PermuteVar8x32(w2, pick), sum);
            sum = Fma.MultiplyAdd(Nodes(first + all, second + all), Avx2.PermuteVar8x32(w3, pick), sum);
            var whole = Avx.ConvertToVector256Int32(sum);
            var six = Ssse3.Shuffle(Sse41.PackUnsignedSaturate(whole.GetLower(), whole.GetUpper()).AsByte(), WithoutSpare);
            *(ulong*)to = six.AsUInt64().ToScalar();
            *(uint*)(to + 4) = six.AsUInt32().GetElement(2);
        }
    }
}
