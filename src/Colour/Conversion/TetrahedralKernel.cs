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
        ReadOnlySpan<float> nodes = table.Nodes;
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
    private static unsafe int ConvertWide(GridTable table, ReadOnlySpan<ushort> source, Span<ushort> destination)
    {
        var (points, last) = (table.Points, table.Points - 1);
        var scale = Vector256.Create(last / (float)ushort.MaxValue);
        var most = Vector256.Create(last - 1);
        var (strideR, strideG) = (points * points, points);
        var (vr, vg, all) = (Vector256.Create(strideR), Vector256.Create(strideG), Vector256.Create(strideR + strideG + 1));
        var offsets = Vector256.Create(strideR, strideG, 1, 0, 0, 0, 0, 0);
        var (axis, rest, second) = (Vector256.Create(3), Vector256.Create(~3), Vector256.Create(2));
        var (steps, part) = (Vector256.Create(16_777_216f), Vector256.Create(1f / 16_777_216f));
        var count = source.Length / 3 / Together * Together;
        var at = stackalloc int[4 * Together];
        var weight = stackalloc float[4 * Together];
        fixed (float* nodes = table.Nodes)
        fixed (ushort* from = source, to = destination)
        {
            for (var i = 0; i < count; i += Together)
            {
                var s = from + (3L * i);
                var (red, green, blue) = ThreePlanes.Split(ref *s);
                var r = Vector256.ConvertToSingle(Avx2.ConvertToVector256Int32(red)) * scale;
                var g = Vector256.ConvertToSingle(Avx2.ConvertToVector256Int32(green)) * scale;
                var b = Vector256.ConvertToSingle(Avx2.ConvertToVector256Int32(blue)) * scale;
                var r0 = Vector256.Min(Vector256.ConvertToInt32(r), most);
                var g0 = Vector256.Min(Vector256.ConvertToInt32(g), most);
                var b0 = Vector256.Min(Vector256.ConvertToInt32(b), most);
                var kr = Key(r, r0);
                var kg = Key(g, g0) | Vector256<int>.One;
                var kb = Key(b, b0) | second;
                var (upper, lower) = (Vector256.Max(kr, kg), Vector256.Min(kr, kg));
                var hi = Vector256.Max(upper, kb);
                var lo = Vector256.Min(lower, kb);
                var mid = Vector256.Max(lower, Vector256.Min(upper, kb));
                var origin = (r0 * vr) + (g0 * vg) + b0;
                var far = origin + all;
                (origin << 2).Store(at);
                ((origin + Vector256.Shuffle(offsets, hi & axis)) << 2).Store(at + Together);
                ((far - Vector256.Shuffle(offsets, lo & axis)) << 2).Store(at + (2 * Together));
                (far << 2).Store(at + (3 * Together));
                var fh = Vector256.ConvertToSingle(hi & rest) * part;
                var fm = Vector256.ConvertToSingle(mid & rest) * part;
                var fl = Vector256.ConvertToSingle(lo & rest) * part;
                (Vector256<float>.One - fh).Store(weight);
                (fh - fm).Store(weight + Together);
                (fm - fl).Store(weight + (2 * Together));
                fl.Store(weight + (3 * Together));
                var d = to + (3L * i);
                for (var j = 0; j < Together; j++, d += 3)
                {
                    var sum = Vector128.Load(nodes + at[j]) * Vector128.Create(weight[j]);
                    sum = Fma.MultiplyAdd(Vector128.Load(nodes + at[j + Together]), Vector128.Create(weight[j + Together]), sum);
                    sum = Fma.MultiplyAdd(Vector128.Load(nodes + at[j + (2 * Together)]), Vector128.Create(weight[j + (2 * Together)]), sum);
                    sum = Fma.MultiplyAdd(Vector128.Load(nodes + at[j + (3 * Together)]), Vector128.Create(weight[j + (3 * Together)]), sum);
                    var whole = Sse2.ConvertToVector128Int32(sum);
                    var packed = Sse41.PackUnsignedSaturate(whole, whole).AsUInt64().ToScalar();
                    *(uint*)d = (uint)(packed & uint.MaxValue);
                    d[2] = (ushort)(packed >> 32 & ushort.MaxValue);
                }
            }
        }

        return count * 3;

        Vector256<int> Key(Vector256<float> position, Vector256<int> below) =>
            Vector256.ConvertToInt32((position - Vector256.ConvertToSingle(below)) * steps) & rest;
    }
}
