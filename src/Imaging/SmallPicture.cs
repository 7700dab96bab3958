using NetVips;

namespace Goodsheet.Imaging;

/// <summary>A picture made small enough for a screen, in its own colours, 16 bits a channel.</summary>
internal sealed record SmallPicture(int Width, int Height, int Channels, ushort[] Pixels)
{
    /// <summary>Reads a picture in one pass and makes it small; pictures that are small already stay as they are.</summary>
    /// <param name="path">The picture's file.</param>
    /// <param name="longestSide">In pixels, of what comes out.</param>
    /// <param name="shape">Width by height that it is cut to, evenly on both sides; none for its own.</param>
    /// <exception cref="VipsException">The file is damaged.</exception>
    public static SmallPicture Read(string path, int longestSide, double? shape = null)
    {
        using var whole = PictureSource.Upright(path);
        using var upright = shape is > 0 ? Cut(whole, shape.Value) : whole.Copy();
        var scale = (double)longestSide / Math.Max(upright.Width, upright.Height);
        // Averaging, without overshoot: a sharpened edge would look like a colour that the picture does not have.
        using var small = scale < 1
            ? upright.Resize(
                Math.Max(scale, 1.0 / upright.Width), kernel: Enums.Kernel.Linear, vscale: Math.Max(scale, 1.0 / upright.Height))
            : upright.Copy();
        using var wide = small.Format == Enums.BandFormat.Ushort ? small.Copy() : Widened(small);
        var pixels = wide.WriteToMemory<ushort>();
        return new(small.Width, small.Height, small.Bands, pixels);
    }

    private static Image Cut(Image whole, double shape)
    {
        var width = Math.Clamp((int)Math.Round(whole.Height * shape), 1, whole.Width);
        var height = Math.Clamp((int)Math.Round(whole.Width / shape), 1, whole.Height);
        return whole.Crop((whole.Width - width) / 2, (whole.Height - height) / 2, width, height);
    }

    private static Image Widened(Image eight)
    {
        using var codes = eight * 257; // 255 becomes 65535
        return codes.Cast(Enums.BandFormat.Ushort);
    }

    /// <summary>A pixel's channels as 0 to 1.</summary>
    public void Pixel(int index, Span<double> values)
    {
        for (var k = 0; k < Channels; k++)
        {
            values[k] = Pixels[(index * Channels) + k] / (double)ushort.MaxValue;
        }
    }
}
