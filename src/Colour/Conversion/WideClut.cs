using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Goodsheet.Colour.Conversion;

/// <summary>What <see cref="ClutStep"/> does with tables of three inputs, eight pixels at a time in the vectors of AVX2, to the same codes.</summary>
/// <remarks>The nodes along the last input lie side by side, so that one load has two corners of a cell. Behind the last node there
/// is room for the corners that a pixel on the far side does not need: they count for nothing.</remarks>
internal static unsafe class WideClut
{
    private const int Together = 8;
    private const int Lanes = ClutStep.Lanes;

    // Of two pixels of four outputs: the first of both, the second of both, and so on.
    private static readonly Vector128<byte> Pairs = Vector128.Create((byte)0, 1, 8, 9, 2, 3, 10, 11, 4, 5, 12, 13, 6, 7, 14, 15);

    /// <summary>Whether this machine can.</summary>
    public static bool IsSupported => Avx2.IsSupported;

    /// <summary>Takes pixels through.</summary>
    /// <param name="nodes">Four codes a node, and room for one node of each input behind the last.</param>
    /// <param name="last">Of each input, the number of its last node.</param>
    /// <param name="stride">Of each input, codes from one node to the next.</param>
    /// <param name="eightCorners">Between eight corners, else in a tetrahedron.</param>
    /// <param name="pixels">In codes; what is behind the last pixel up to a whole vector is any number.</param>
    public static void Apply(ushort[] nodes, int[] last, int[] stride, bool eightCorners, PixelPlanes pixels)
    {
        unchecked
        {
            // First where all pixels lie, then the nodes of one pixel after the other: loops so short have many on their way at once.
            var (sx, sy) = (stride[0], stride[1]);
            fixed (int* at = pixels.Places)
            fixed (ushort* results = pixels.Results, table = nodes, x = pixels.Codes[0], y = pixels.Codes[1], z = pixels.Codes[2], spare = pixels.Codes[3])
            {
                var (mx, my, mz, part) = (Vector256.Create(last[0]), Vector256.Create(last[1]), Vector256.Create(last[2]), Vector256.Create(0xFFFF));
                for (var i = 0; i < pixels.Count; i += Together)
                {
                    var (fx, fy, fz) = (Place(x + i, mx), Place(y + i, my), Place(z + i, mz));
                    (Avx2.MultiplyLow(fx >>> 16, Vector256.Create(sx)) + Avx2.MultiplyLow(fy >>> 16, Vector256.Create(sy)) + ((fz >>> 16) << 2)).Store(at + i);
                    (fx & part).Store(at + i + PixelPlanes.Most);
                    (fy & part).Store(at + i + (2 * PixelPlanes.Most));
                    (fz & part).Store(at + i + (3 * PixelPlanes.Most));
                }

                if (eightCorners)
                {
                    for (var i = 0; i < pixels.Count; i += 2)
                    {
                        Sse41.PackUnsignedSaturate(Corners(table, sx, sy, at + i), Corners(table, sx, sy, at + i + 1)).Store(results + (Lanes * i));
                    }
                }
                else
                {
                    Tetrahedra(table, sx, sy, at, pixels.Count, results);
                }

                for (var i = 0; i < pixels.Count; i += Together)
                {
                    var eight = results + (Lanes * i);
                    var a = Ssse3.Shuffle(Vector128.Load(eight).AsByte(), Pairs).AsInt32();
                    var b = Ssse3.Shuffle(Vector128.Load(eight + 8).AsByte(), Pairs).AsInt32();
                    var c = Ssse3.Shuffle(Vector128.Load(eight + 16).AsByte(), Pairs).AsInt32();
                    var d = Ssse3.Shuffle(Vector128.Load(eight + 24).AsByte(), Pairs).AsInt32();
                    var ab = Sse2.UnpackLow(a, b).AsInt64();
                    var cd = Sse2.UnpackLow(c, d).AsInt64();
                    Sse2.UnpackLow(ab, cd).AsUInt16().Store(x + i);
                    Sse2.UnpackHigh(ab, cd).AsUInt16().Store(y + i);
                    ab = Sse2.UnpackHigh(a, b).AsInt64();
                    cd = Sse2.UnpackHigh(c, d).AsInt64();
                    Sse2.UnpackLow(ab, cd).AsUInt16().Store(z + i);
                    Sse2.UnpackHigh(ab, cd).AsUInt16().Store(spare + i);
                }
            }
        }
    }

    /// <summary>Places in a table, as <see cref="Fixed.Of(int)"/> has them, of eight codes.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<int> Place(ushort* codes, Vector256<int> last)
    {
        var product = Avx2.MultiplyLow(Avx2.ConvertToVector256Int32(codes), last);
        var t = product + Vector256.Create(0x7FFF);
        return product + ((t + Vector256<int>.One + (t >>> 16)) >>> 16); // t / 65535 in whole numbers, exact for all t up to 65536 x 65535
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> Corners(ushort* table, int sx, int sy, int* at)
    {
        unchecked
        {
            var node = table + at[0];
            var rx = Vector256.Create(at[PixelPlanes.Most]);
            var near = Straight(Avx2.ConvertToVector256Int32(node), Avx2.ConvertToVector256Int32(node + sx), rx);
            var far = Straight(Avx2.ConvertToVector256Int32(node + sy), Avx2.ConvertToVector256Int32(node + sx + sy), rx);
            var both = Straight(near, far, Vector256.Create(at[2 * PixelPlanes.Most]));
            var (from, to) = (both.GetLower(), both.GetUpper());
            return ((from << 16) + Vector128.Create(0x8000) + Sse41.MultiplyLow(to - from, Vector128.Create(at[3 * PixelPlanes.Most]))) >>> 16;
        }
    }

    // Beside ClutStep the step is added before it is shifted: what overflows comes right in the 16 bits that are kept.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Straight(Vector256<int> from, Vector256<int> to, Vector256<int> part) =>
        ((from << 16) + Vector256.Create(0x8000) + Avx2.MultiplyLow(to - from, part)) >>> 16;

    [SkipLocalsInit]
    private static void Tetrahedra(ushort* table, int sx, int sy, int* at, int count, ushort* results)
    {
        unchecked
        {
            var steps = Vector256.Create(sx, sy, Lanes, 0, 0, 0, 0, 0);
            var (way, all) = (Vector256.Create(3), Vector256.Create(sx + sy + Lanes));
            CellCorners cell;
            var corners = cell.At;
            for (var i = 0; i < count; i += Together)
            {
                var origin = Vector256.Load(at + i);
                // The rests in order, each with the number of its input in its low bits.
                var x = Vector256.Load(at + i + PixelPlanes.Most) << 2;
                var y = (Vector256.Load(at + i + (2 * PixelPlanes.Most)) << 2) | Vector256<int>.One;
                var z = (Vector256.Load(at + i + (3 * PixelPlanes.Most)) << 2) | Vector256.Create(2);
                var (upper, lower) = (Avx2.Max(x, y), Avx2.Min(x, y));
                var (first, third) = (Avx2.Max(upper, z), Avx2.Min(lower, z));
                var second = Avx2.Max(lower, Avx2.Min(upper, z)) >>> 2;
                origin.Store(corners);
                (origin + Avx2.PermuteVar8x32(steps, first & way)).Store(corners + Together);
                (origin + all - Avx2.PermuteVar8x32(steps, third & way)).Store(corners + (2 * Together));
                (origin + all).Store(corners + (3 * Together));
                (first, third) = (first >>> 2, third >>> 2);
                var pick = Vector256.Create(0, 0, 0, 0, 1, 1, 1, 1);
                for (var j = 0; j < Together; j += 2, pick += Vector256.Create(2))
                {
                    Two(table, corners + j, Avx2.PermuteVar8x32(first, pick), Avx2.PermuteVar8x32(second, pick), Avx2.PermuteVar8x32(third, pick))
                        .Store(results + (Lanes * (i + j)));
                }
            }
        }
    }

    private struct CellCorners
    {
        public fixed int At[4 * Together];
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<ushort> Two(ushort* table, int* at, Vector256<int> first, Vector256<int> second, Vector256<int> third)
    {
        unchecked
        {
            var near = Nodes(table, at);
            var one = Nodes(table, at + Together);
            var two = Nodes(table, at + (2 * Together));
            var end = Nodes(table, at + (3 * Together));
            var sum = Avx2.MultiplyLow(one - near, first) + Avx2.MultiplyLow(two - one, second) + Avx2.MultiplyLow(end - two, third);
            var rest = sum + Vector256.Create(0x8001);
            var codes = (near + ((rest + (rest >> 16)) >> 16)) & Vector256.Create(0xFFFF);
            return Sse41.PackUnsignedSaturate(codes.GetLower(), codes.GetUpper());
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Nodes(ushort* table, int* two)
    {
        unchecked
        {
            return Avx2.ConvertToVector256Int32(Vector128.Create(*(ulong*)(table + two[0]), *(ulong*)(table + two[1])).AsUInt16());
        }
    }
}
