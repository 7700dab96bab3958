using NetVips;

namespace Goodsheet.Imaging;

/// <summary>A small JPEG of a picture, in sRGB: for a document.</summary>
public static class Thumbnail
{
    private const int Quality = 88;

    /// <param name="path">A picture.</param>
    /// <param name="longSide">Pixels of its longer side, at most.</param>
    public static byte[]? Jpeg(string path, int longSide)
    {
        if (ImageFile.Probe(path).Value is null)
        {
            return null;
        }

        try
        {
            using var small = Image.Thumbnail(path, longSide, height: longSide, size: Enums.Size.Down, outputProfile: "srgb");
            using var flat = small.HasAlpha() ? small.Flatten(background: [255]) : small.Copy();
            return flat.JpegsaveBuffer(q: Quality, keep: Enums.ForeignKeep.Icc); // with nothing kept it has no JFIF head, by which the document knows a JPEG
        }
        catch (VipsException)
        {
            return null;
        }
    }
}
