using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Goodsheet.Colour.Conversion;

/// <summary>Eight pixels of three channels side by side, taken apart into a vector a channel and put together again.</summary>
internal static class ThreePlanes
{
    /// <summary>How many pixels go at once.</summary>
    public const int Together = 8;

    private const byte Nothing = 0x80; // a shuffle gives 0 there

    // Which byte of each source vector goes where: [to * 3 + from].
    private static readonly Vector128<byte>[] Apart = Masks((plane, pixel) => ((3 * pixel) + plane) / Together, (plane, pixel) => ((3 * pixel) + plane) % Together);
    private static readonly Vector128<byte>[] Back = Masks((block, at) => ((Together * block) + at) % 3, (block, at) => ((Together * block) + at) / 3);

    /// <summary>Whether this machine can.</summary>
    public static bool IsSupported => Ssse3.IsSupported;

    /// <summary>Takes 24 values apart.</summary>
    /// <returns>The first, second and third channel.</returns>
    public static (Vector128<ushort> A, Vector128<ushort> B, Vector128<ushort> C) Split(ref ushort pixels) => Through(
        Apart, Vector128.LoadUnsafe(ref pixels), Vector128.LoadUnsafe(ref pixels, Together), Vector128.LoadUnsafe(ref pixels, 2 * Together));

    /// <summary>Puts 24 values side by side.</summary>
    public static void Join(Vector128<ushort> a, Vector128<ushort> b, Vector128<ushort> c, ref ushort pixels)
    {
        var (first, second, third) = Through(Back, a, b, c);
        first.StoreUnsafe(ref pixels);
        second.StoreUnsafe(ref pixels, Together);
        third.StoreUnsafe(ref pixels, 2 * Together);
    }

    private static (Vector128<ushort> A, Vector128<ushort> B, Vector128<ushort> C) Through(
        Vector128<byte>[] masks, Vector128<ushort> a, Vector128<ushort> b, Vector128<ushort> c)
    {
        var (x, y, z) = (a.AsByte(), b.AsByte(), c.AsByte());
        return (
            (Ssse3.Shuffle(x, masks[0]) | Ssse3.Shuffle(y, masks[1]) | Ssse3.Shuffle(z, masks[2])).AsUInt16(),
            (Ssse3.Shuffle(x, masks[3]) | Ssse3.Shuffle(y, masks[4]) | Ssse3.Shuffle(z, masks[5])).AsUInt16(),
            (Ssse3.Shuffle(x, masks[6]) | Ssse3.Shuffle(y, masks[7]) | Ssse3.Shuffle(z, masks[8])).AsUInt16());
    }

    private static Vector128<byte>[] Masks(Func<int, int, int> source, Func<int, int, int> place)
    {
        var masks = new Vector128<byte>[9];
        Span<byte> mask = stackalloc byte[2 * Together];
        for (var to = 0; to < 3; to++)
        {
            for (var from = 0; from < 3; from++)
            {
                mask.Fill(Nothing);
                for (var i = 0; i < Together; i++)
                {
                    if (source(to, i) == from)
                    {
                        (mask[2 * i], mask[(2 * i) + 1]) = ((byte)(2 * place(to, i)), (byte)((2 * place(to, i)) + 1));
                    }
                }

                masks[(to * 3) + from] = Vector128.Create<byte>(mask);
            }
        }

        return masks;
    }
}
