using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Goodsheet.Colour.Conversion;

/// <summary>Some pixels on their way through a conversion, a plane for each channel: as 16-bit codes or as values of 0 to 1.</summary>
internal sealed class PixelPlanes
{
    /// <summary>How many pixels fit: few enough that all planes stay near the core.</summary>
    public const int Most = 512;

    /// <summary>Codes, 65535 meaning 1.</summary>
    public ushort[][] Codes { get; } = Planes<ushort>();

    /// <summary>Values in single precision, as the reference engine keeps them between its steps.</summary>
    public float[][] Values { get; } = Planes<float>();

    /// <summary>What single precision leaves of the values, for a step that needs it.</summary>
    public float[][] Rests { get; } = Planes<float>();

    /// <summary>Room for four numbers a pixel, for a step that needs it.</summary>
    public int[] Places { get; } = new int[4 * Most];

    /// <summary>Room for four codes a pixel, for a step that needs it.</summary>
    public ushort[] Results { get; } = new ushort[4 * Most];

    /// <summary>How many pixels there are now.</summary>
    public int Count { get; set; }

    /// <summary>How many to go through so that whole vectors are done; what is behind <see cref="Count"/> is any number.</summary>
    public int WholeVectors => (Count + 7) & ~7;

    /// <summary>Takes pixels in, channels side by side.</summary>
    public void Take(ReadOnlySpan<ushort> pixels, int channels)
    {
        Count = pixels.Length / channels;
        var done = 0;
        if (channels == 3 && ThreePlanes.IsSupported)
        {
            for (; done + ThreePlanes.Together <= Count; done += ThreePlanes.Together)
            {
                var a = ThreePlanes.Split(ref Unsafe.AsRef(in pixels[3 * done]), out var b, out var c);
                a.StoreUnsafe(ref Codes[0][done]);
                b.StoreUnsafe(ref Codes[1][done]);
                c.StoreUnsafe(ref Codes[2][done]);
            }
        }

        for (var k = 0; k < channels; k++)
        {
            var plane = Codes[k];
            for (int i = done, at = (done * channels) + k; at < pixels.Length; i++, at += channels)
            {
                plane[i] = pixels[at];
            }
        }
    }

    /// <summary>Gives pixels out, channels side by side.</summary>
    public void Give(Span<ushort> pixels, int channels)
    {
        var done = 0;
        if (channels == 3 && ThreePlanes.IsSupported)
        {
            for (; done + ThreePlanes.Together <= pixels.Length / 3; done += ThreePlanes.Together)
            {
                ThreePlanes.Join(
                    Vector128.LoadUnsafe(ref Codes[0][done]), Vector128.LoadUnsafe(ref Codes[1][done]), Vector128.LoadUnsafe(ref Codes[2][done]), ref pixels[3 * done]);
            }
        }

        for (var k = 0; k < channels; k++)
        {
            var plane = Codes[k];
            for (int i = done, at = (done * channels) + k; at < pixels.Length; i++, at += channels)
            {
                pixels[at] = plane[i];
            }
        }
    }

    private static T[][] Planes<T>() => [.. Enumerable.Range(0, 4).Select(_ => new T[Most])];
}
