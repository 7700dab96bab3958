using System.Buffers.Binary;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>What is written in a picture about it, and goes with it into its print-ready file: whose it is and what it shows.</summary>
/// <remarks>The rest of EXIF (camera, settings, place) stays in the picture: a file that goes to a printer needs none of it. See docs/decisions/0160.</remarks>
internal sealed record PictureNotes(byte[]? Xmp, byte[]? Iptc, string? Description, string? Artist, string? Copyright)
{
    public static readonly PictureNotes None = new(null, null, null, null, null);

    private const int MostBytes = 1 << 20; // of a block: more is no note
    private const int MostLetters = 2_000;

    /// <exception cref="VipsException">The file is no picture.</exception>
    public static PictureNotes Of(string path)
    {
        using var image = ImageFile.Open(path, Enums.Access.Sequential, out _) ?? throw new VipsException("not a picture");
        return new(
            Block(image, "xmp-data"), Bare(Block(image, "iptc-data")),
            Text(image, "exif-ifd0-ImageDescription") ?? Plain(image, "image-description"),
            Text(image, "exif-ifd0-Artist"), Text(image, "exif-ifd0-Copyright"));
    }

    private static byte[]? Block(Image image, string name) =>
        image.Contains(name) && image.Get(name) is byte[] { Length: > 0 and <= MostBytes } bytes ? bytes : null;

    // In a JPEG the records lie in a list of resources, under number 0x0404 (Photoshop's file format, from memory); in a TIFF they are bare.
    private static byte[]? Bare(byte[]? block)
    {
        var head = "Photoshop 3.0\0"u8;
        if (block is null || !block.AsSpan().StartsWith(head))
        {
            return block;
        }

        var rest = block.AsSpan(head.Length);
        while (rest.Length >= 12 && rest.StartsWith("8BIM"u8))
        {
            var id = BinaryPrimitives.ReadUInt16BigEndian(rest[4..]);
            var name = (rest[6] + 2) & ~1; // its length and its letters, made even
            if (rest.Length < 10 + name)
            {
                return null;
            }

            var size = BinaryPrimitives.ReadUInt32BigEndian(rest[(6 + name)..]);
            rest = rest[(10 + name)..];
            if (size > rest.Length)
            {
                return null;
            }

            if (id == 0x0404)
            {
                return size == 0 ? null : rest[..(int)size].ToArray();
            }

            rest = rest[Math.Min(rest.Length, (int)((size + 1) & ~1u))..];
        }

        return null;
    }

    // libvips gives "value (value, ASCII, 6 components, 6 bytes)".
    private static string? Text(Image image, string name) =>
        Plain(image, name) is { } text && text.LastIndexOf(" (", StringComparison.Ordinal) is > 0 and var end && text.EndsWith(" bytes)", StringComparison.Ordinal)
            ? Value(text, end) : null;

    // What stands in brackets begins with the value itself, which may have brackets of its own.
    private static string Value(string text, int end)
    {
        for (var at = text.IndexOf(" (", StringComparison.Ordinal); at > 0 && at < end; at = text.IndexOf(" (", at + 1, StringComparison.Ordinal))
        {
            if (text.AsSpan(at + 2).StartsWith(text.AsSpan(0, at), StringComparison.Ordinal))
            {
                return text[..at];
            }
        }

        return text[..end];
    }

    private static string? Plain(Image image, string name) =>
        image.Contains(name) && image.Get(name) is string { Length: > 0 and <= MostLetters } text && text.Trim('\0', ' ') is { Length: > 0 } plain
            ? plain.Replace("\0", "", StringComparison.Ordinal) : null;
}
