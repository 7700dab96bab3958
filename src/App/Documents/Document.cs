using PdfSharp.Pdf;

namespace Goodsheet.App.Documents;

/// <summary>A finished document, ready to be sent: its bytes and the name it is kept under.</summary>
public sealed record Document(byte[] Pdf, string FileName, int Pages)
{
    internal static Document Of(PdfDocument document, string fileName)
    {
        var pages = document.PageCount; // it cannot be asked once it is saved
        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        return new(bytes.ToArray(), fileName, pages);
    }
}
