using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace Goodsheet.Imaging;

/// <summary>What a PDF says of itself in XMP (ISO 16684-1, from memory): the same as in its information dictionary, and whose picture it is.</summary>
internal static class PdfXmp
{
    private static readonly XNamespace X = "adobe:ns:meta/";
    private static readonly XNamespace Rdf = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
    private static readonly XNamespace Dc = "http://purl.org/dc/elements/1.1/";
    private static readonly XNamespace Xmp = "http://ns.adobe.com/xap/1.0/";
    private static readonly XNamespace Pdf = "http://ns.adobe.com/pdf/1.3/";

    public static byte[] Of(PdfTitle title, PictureNotes notes)
    {
        var at = title.At.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
        var said = new XElement(
            Rdf + "Description", new XAttribute(Rdf + "about", ""),
            new XAttribute(XNamespace.Xmlns + "dc", Dc.NamespaceName), new XAttribute(XNamespace.Xmlns + "xmp", Xmp.NamespaceName), new XAttribute(XNamespace.Xmlns + "pdf", Pdf.NamespaceName),
            new XElement(Dc + "format", "application/pdf"),
            new XElement(Dc + "title", Words(title.Title)),
            notes.Artist is { } artist ? new XElement(Dc + "creator", new XElement(Rdf + "Seq", new XElement(Rdf + "li", Plain(artist)))) : null,
            notes.Copyright is { } rights ? new XElement(Dc + "rights", Words(rights)) : null,
            new XElement(Xmp + "CreateDate", at), new XElement(Xmp + "ModifyDate", at), new XElement(Xmp + "MetadataDate", at), new XElement(Xmp + "CreatorTool", "Goodsheet"),
            new XElement(Pdf + "Producer", "Goodsheet"), new XElement(Pdf + "Trapped", "False"));
        var packet = new XElement(
            X + "xmpmeta", new XAttribute(XNamespace.Xmlns + "x", X.NamespaceName),
            new XElement(Rdf + "RDF", new XAttribute(XNamespace.Xmlns + "rdf", Rdf.NamespaceName), said));
        return Encoding.UTF8.GetBytes($"<?xpacket begin=\"\uFEFF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n{packet}\n<?xpacket end=\"r\"?>");
    }

    private static XElement Words(string text) =>
        new(Rdf + "Alt", new XElement(Rdf + "li", new XAttribute(XNamespace.Xml + "lang", "x-default"), Plain(text)));

    // What XML cannot hold is left out.
    private static string Plain(string text) => string.Concat(text.Where(XmlConvert.IsXmlChar));
}
