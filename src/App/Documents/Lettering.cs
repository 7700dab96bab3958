using PdfSharp.Drawing;
using PdfSharp.Fonts;

namespace Goodsheet.App.Documents;

internal enum Face
{
    Text,
    Strong,

    /// <summary>The title of a picture, and nothing else.</summary>
    Title,
}

/// <summary>The room's one family of type, carried in the program, so that a document looks alike on every machine.</summary>
internal sealed class Lettering : IFontResolver
{
    private const string Family = "Goodsheet Text";

    private static readonly Lock Once = new();

    public static XFont Of(Face face, double size)
    {
        lock (Once)
        {
            GlobalFontSettings.FontResolver ??= new Lettering();
        }

        return new(Family, size, face switch
        {
            Face.Strong => XFontStyleEx.Bold,
            Face.Title => XFontStyleEx.Italic,
            _ => XFontStyleEx.Regular,
        });
    }

    public FontResolverInfo? ResolveTypeface(string familyName, bool bold, bool italic) =>
        new($"atkinson-hyperlegible-next-{(bold ? 600 : 400)}-{(italic && !bold ? "italic" : "normal")}.ttf");

    public byte[] GetFont(string faceName)
    {
        using var font = typeof(Lettering).Assembly.GetManifestResourceStream(faceName)
            ?? throw new InvalidOperationException($"The program carries no font {faceName}.");
        using var bytes = new MemoryStream();
        font.CopyTo(bytes);
        return bytes.ToArray();
    }
}
