using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Goodsheet.Colour.Conversion;

/// <summary>Eight pixels of three channels side by side, taken apart into a vector a channel and put together again.</summary>
internal static class ThreePlanes
{
    /// <summary>How many pixels go at once.</summary>
    public const int Together = 8;

    private const byte Nothing = 0x80; // a shuffle gives 0 there

    // Which byte of each source vector goes where, for each of three to fill.
    private static readonly Vector128<byte> Apart00 = Mask(0, 0, Taken), Apart01 = Mask(0, 1, Taken), Apart02 = Mask(0, 2, Taken);
    private static readonly Vector128<byte> Apart10 = Mask(1, 0, Taken), Apart11 = Mask(1, 1, Taken), Apart12 = Mask(1, 2, Taken);
    private static readonly Vector128<byte> Apart20 = Mask(2, 0, Taken), Apart21 = Mask(2, 1, Taken), Apart22 = Mask(2, 2, Taken);
    private static readonly Vector128<byte> Back00 = Mask(0, 0, Given), Back01 = Mask(0, 1, Given), Back02 = Mask(0, 2, Given);
    private static readonly Vector128<byte> Back10 = Mask(1, 0, Given), Back11 = Mask(1, 1, Given), Back12 = Mask(1, 2, Given);
    private static readonly Vector128<byte> Back20 = Mask(2, 0, Given), Back21 = Mask(2, 1, Given), Back22 = Mask(2, 2, Given);

    /// <summary>Whether this machine can.</summary>
    public static bool IsSupported => Ssse3.IsSupported;

    /// <summary>Takes 24 values apart.</summary>
    /// <returns>The first channel.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector128<ushort> Split(ref ushort pixels, out Vector128<ushort> second, out Vector128<ushort> third)
    {
        var x = Vector128.LoadUnsafe(ref pixels).AsByte();
        var y = Vector128.LoadUnsafe(ref pixels, Together).AsByte();
        var z = Vector128.LoadUnsafe(ref pixels, 2 * Together).AsByte();
        second = Pick(x, Apart10, y, Apart11, z, Apart12);
        third = Pick(x, Apart20, y, Apart21, z, Apart22);
        return Pick(x, Apart00, y, Apart01, z, Apart02);
    }

    /// <summary>Puts 24 values side by side.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Join(Vector128<ushort> a, Vector128<ushort> b, Vector128<ushort> c, ref ushort pixels)
    {
        var (x, y, z) = (a.AsByte(), b.AsByte(), c.AsByte());
        Pick(x, Back00, y, Back01, z, Back02).StoreUnsafe(ref pixels);
        Pick(x, Back10, y, Back11, z, Back12).StoreUnsafe(ref pixels, Together);
        Pick(x, Back20, y, Back21, z, Back22).StoreUnsafe(ref pixels, 2 * Together);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<ushort> Pick(Vector128<byte> x, Vector128<byte> ofX, Vector128<byte> y, Vector128<byte> ofY, Vector128<byte> z, Vector128<byte> ofZ) =>
        (Ssse3.Shuffle(x, ofX) | Ssse3.Shuffle(y, ofY) | Ssse3.Shuffle(z, ofZ)).AsUInt16();

    // Of the value at a place of a plane: which vector of pixels has it, and where.
    private static (int From, int At) Taken(int plane, int at) => Math.DivRem((3 * at) + plane, Together);

    // Of the value at a place of a vector of pixels: which plane has it, and where.
    private static (int From, int At) Given(int vector, int at)
    {
        var (pixel, plane) = Math.DivRem((Together * vector) + at, 3);
        return (plane, pixel);
    }

    private static Vector128<byte> Mask(int to, int from, Func<int, int, (int From, int At)> source)
    {
        Span<byte> mask = stackalloc byte[2 * Together];
        mask.Fill(Nothing);
        for (var i = 0; i < Together; i++)
        {
            if (source(to, i) is var (vector, at) && vector == from)
            {
                (mask[2 * i], mask[(2 * i) + 1]) = ((byte)(2 * at), (byte)((2 * at) + 1));
            }
        }

        return Vector128.Create<byte>(mask);
    }
}
