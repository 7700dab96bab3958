using NetVips;

namespace Goodsheet.Imaging;

/// <summary>What a picture's file says of itself.</summary>
/// <param name="Format">"TIFF", "JPEG" or "PNG".</param>
/// <param name="Width">In pixels, as it is to be looked at: orientation taken in.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Channels">1 grey, 3 RGB, 4 CMYK; an alpha channel is not counted.</param>
/// <param name="Depth">Bits a channel: 8 or 16.</param>
/// <param name="HasAlpha">Whether there is transparency, which is laid on white.</param>
/// <param name="Profile">The embedded ICC profile, if any.</param>
/// <param name="Orientation">1 to 8 as in EXIF; 1 where it is not said.</param>
public sealed record ImageFile(
    string Format, int Width, int Height, int Channels, int Depth, bool HasAlpha, byte[]? Profile, int Orientation)
{
    /// <summary>More pixels than any print has: a slip, or a file that wants to fill the memory.</summary>
    public const long MostPixels = 1_000_000_000;

    internal const int MostSide = 300_000;

    public double Megapixels => (double)Width * Height / 1e6;

    /// <summary>Reads the head of a file. No pixel is decoded.</summary>
    public static PictureResult<ImageFile> Probe(string path)
    {
        try
        {
            using var image = Open(path, Enums.Access.Sequential, out var format);
            return format is null
                ? new PictureFault("This is not a TIFF, JPEG or PNG file.")
                : Describe(image!, format);
        }
        catch (VipsException e)
        {
            return new PictureFault($"The file is cut short or damaged, and its head cannot be read: {FirstLine(e)}");
        }
    }

    /// <summary>Reads a file from its head to its last pixel: what is cut short, or lies about its size, is found out.</summary>
    public static PictureResult<ImageFile> ReadThrough(string path)
    {
        var head = Probe(path);
        if (head.Value is null)
        {
            return head;
        }

        try
        {
            using var image = Open(path, Enums.Access.Sequential, out _);
            image!.Avg();
            return head;
        }
        catch (VipsException e)
        {
            return new PictureFault($"The file is cut short or damaged: {FirstLine(e)}");
        }
    }

    /// <summary>Opens a picture; the caller disposes it.</summary>
    internal static Image? Open(string path, Enums.Access access, out string? format)
    {
        Span<byte> head = stackalloc byte[8];
        using (var file = File.OpenRead(path))
        {
            head = head[..file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false)];
        }

        format = head switch
        {
            [0xFF, 0xD8, 0xFF, ..] => "JPEG",
            [0x89, (byte)'P', (byte)'N', (byte)'G', ..] => "PNG",
            [(byte)'I', (byte)'I', 42 or 43, 0, ..] or [(byte)'M', (byte)'M', 0, 42 or 43, ..] => "TIFF",
            _ => null,
        };
        return format switch
        {
            "JPEG" => Image.Jpegload(path, access: access, failOn: Enums.FailOn.Error),
            "PNG" => Image.Pngload(path, access: access, failOn: Enums.FailOn.Error),
            "TIFF" => Image.Tiffload(path, access: access, failOn: Enums.FailOn.Error),
            _ => null,
        };
    }

    internal static int OrientationOf(Image image) =>
        image.Contains("orientation") && image.Get("orientation") is int o and >= 1 and <= 8 ? o : 1;

    /// <summary>What the reader says is wrong, without where this room keeps the file.</summary>
    internal static string FirstLine(VipsException e)
    {
        var line = e.Message.Split('\n', StringSplitOptions.RemoveEmptyEntries) is { Length: > 1 } lines ? lines[1].Trim() : e.Message.Trim();
        return Path.IsPathRooted(line) ? line[(line.LastIndexOf(": ", StringComparison.Ordinal) + 2)..] : line;
    }

    private static PictureResult<ImageFile> Describe(Image image, string format)
    {
        if ((long)image.Width * image.Height > MostPixels || Math.Max(image.Width, image.Height) > MostSide)
        {
            return new PictureFault($"{image.Width} × {image.Height} pixels are more than the {MostPixels / 1_000_000} million this room takes.");
        }

        var depth = image.Format switch
        {
            Enums.BandFormat.Uchar => 8,
            Enums.BandFormat.Ushort => 16,
            _ => 0,
        };
        if (depth == 0)
        {
            return new PictureFault("Its pixels are neither 8 nor 16 bits. Save it with 16 bits a channel.");
        }

        var alpha = image.HasAlpha();
        var channels = image.Bands - (alpha ? 1 : 0);
        if (channels is not (1 or 3 or 4) || (channels == 4 && image.Interpretation != Enums.Interpretation.Cmyk))
        {
            return new PictureFault($"It has {image.Bands} channels. Grey, RGB and CMYK pictures are printed.");
        }

        var orientation = OrientationOf(image);
        var profile = image.Contains("icc-profile-data") ? image.Get("icc-profile-data") as byte[] : null;
        var turned = orientation >= 5;
        return new ImageFile(
            format, turned ? image.Height : image.Width, turned ? image.Width : image.Height, channels, depth, alpha, profile, orientation);
    }
}
