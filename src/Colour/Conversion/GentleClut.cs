using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Conversion;

/// <summary>What <see cref="WideClut"/> does between eight corners, to the same codes, for tables without steep steps.</summary>
/// <remarks>
/// Where no two nodes side by side are further apart than a number of 16 bits with its sign can say, all of a cell is done in 16 bits:
/// sixteen numbers in a vector and not eight, and products that take a quarter of the time. Printers' tables are like that.
/// </remarks>
internal static unsafe class GentleClut
{
    /// <summary>Codes from a node to the next, at most: with room for what rounding adds on the way.</summary>
    public const int MostStep = 32_000;

    private const int Together = 8;

    // Of pixels that lie one behind the other in each half: the first codes of both, the second of both, and so on.
    private static readonly Vector256<byte> Pairs = Vector256.Create(Vector128.Create((byte)0, 1, 8, 9, 2, 3, 10, 11, 4, 5, 12, 13, 6, 7, 14, 15));

    /// <summary>Whether a table has no step that is too steep.</summary>
    public static bool IsGentle(Clut table)
    {
        var nodes = table.Nodes;
        var step = table.Outputs;
        for (var axis = table.Inputs - 1; axis >= 0; axis--)
        {
            var line = step * table.Grid[axis];
            for (var i = 0; i + step < nodes.Length; i++)
            {
                if (i % line < line - step && Math.Abs(nodes[i + step] - nodes[i]) > MostStep)
                {
                    return false;
                }
            }

            step = line;
        }

        return true;
    }

    /// <summary>Takes pixels through.</summary>
    /// <param name="nodes">As <see cref="WideClut"/> has them.</param>
    /// <param name="last">Of each input, the number of its last node.</param>
    /// <param name="stride">Of each input, codes from one node to the next.</param>
    /// <param name="pixels">In codes; what is behind the last pixel up to a whole vector is any number.</param>
    public static void Apply(ushort[] nodes, int[] last, int[] stride, PixelPlanes pixels)
    {
        unchecked
        {
            var (sx, sy) = (stride[0], stride[1]);
            fixed (int* at = pixels.Places)
            fixed (ushort* table = nodes, x = pixels.Codes[0], y = pixels.Codes[1], z = pixels.Codes[2], spare = pixels.Codes[3])
            {
                var (mx, my, mz) = (Vector256.Create(last[0]), Vector256.Create(last[1]), Vector256.Create(last[2]));
                for (var i = 0; i < pixels.Count; i += Together)
                {
                    var (fx, fy, fz) = (WideClut.Place(x + i, mx), WideClut.Place(y + i, my), WideClut.Place(z + i, mz));
                    (Avx2.MultiplyLow(fx >>> 16, Vector256.Create(sx)) + Avx2.MultiplyLow(fy >>> 16, Vector256.Create(sy)) + ((fz >>> 16) << 2)).Store(at + i);
                    Twice(fx).Store(at + i + PixelPlanes.Most);
                    Twice(fy).Store(at + i + (2 * PixelPlanes.Most));
                    Twice(fz).Store(at + i + (3 * PixelPlanes.Most));
                }

                var (way, firsts, seconds) = (Vector256.Create(0, 4, 1, 5, 2, 6, 3, 7), Vector256.Create(0, 0, 0, 0, 2, 2, 2, 2), Vector256.Create(0, 0, 1, 1, 2, 2, 3, 3));
                for (var i = 0; i < pixels.Count; i += Together)
                {
                    var (ry, rz) = (Vector256.Load(at + i + (2 * PixelPlanes.Most)), Vector256.Load(at + i + (3 * PixelPlanes.Most)));
                    var four = Four(table, sx, sy, at + i, ry, rz, firsts, seconds);
                    var next = Four(table, sx, sy, at + i + 4, ry, rz, firsts + Vector256.Create(4), seconds + Vector256.Create(4));
                    var a = Avx2.Shuffle(four.AsByte(), Pairs).AsInt32();
                    var b = Avx2.Shuffle(next.AsByte(), Pairs).AsInt32();
                    var xy = Avx2.PermuteVar8x32(Avx2.UnpackLow(a, b), way).AsUInt16();
                    var zs = Avx2.PermuteVar8x32(Avx2.UnpackHigh(a, b), way).AsUInt16();
                    xy.GetLower().Store(x + i);
                    xy.GetUpper().Store(y + i);
                    zs.GetLower().Store(z + i);
                    zs.GetUpper().Store(spare + i);
                }
            }
        }
    }

    // The part of a step, in both halves of a number.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Twice(Vector256<int> place) => (place << 16) | (place & Vector256.Create(0xFFFF));

    // Four pixels, the first two in one half. Two nodes along the last input lie side by side; a half of a vector has both.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ushort> Four(
        ushort* table, int sx, int sy, int* at, Vector256<int> ry, Vector256<int> rz, Vector256<int> first, Vector256<int> each)
    {
        unchecked
        {
            var even = Two(table, sx, sy, at, Avx2.PermuteVar8x32(ry, first));
            var odd = Two(table, sx, sy, at + 1, Avx2.PermuteVar8x32(ry, first + Vector256<int>.One));
            return Straight(Avx2.UnpackLow(even, odd).AsUInt16(), Avx2.UnpackHigh(even, odd).AsUInt16(), Avx2.PermuteVar8x32(rz, each));
        }
    }

    // A pixel and the next but one.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ulong> Two(ushort* table, int sx, int sy, int* at, Vector256<int> ry)
    {
        unchecked
        {
            var (a, b) = (Along(table + at[0], sx, sy, at), Along(table + at[2], sx, sy, at + 2));
            return Straight(Avx2.Permute2x128(a, b, 0x20), Avx2.Permute2x128(a, b, 0x31), ry).AsUInt64();
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ushort> Along(ushort* node, int sx, int sy, int* at)
    {
        unchecked
        {
            return Straight(
                Vector256.Create(Vector128.Load(node), Vector128.Load(node + sy)),
                Vector256.Create(Vector128.Load(node + sx), Vector128.Load(node + sx + sy)),
                Vector256.Create(at[PixelPlanes.Most]));
        }
    }

    // From one to the other by a part of 65536, the nearest code. A part of a half and more is, as a number with its sign, a whole less:
    // then the way is counted back from the other.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ushort> Straight(Vector256<ushort> from, Vector256<ushort> to, Vector256<int> part)
    {
        var (way, by) = ((to - from).AsInt16(), part.AsInt16());
        var whole = Avx2.BlendVariable(from.AsByte(), to.AsByte(), Avx2.ShiftRightArithmetic(by, 15).AsByte()).AsUInt16();
        return whole + Avx2.MultiplyHigh(way, by).AsUInt16() + (Avx2.MultiplyLow(way, by).AsUInt16() >>> 15);
    }
}
