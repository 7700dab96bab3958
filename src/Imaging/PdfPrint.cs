using System.Buffers.Binary;
using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>A rectangle in pixels from the upper left corner of a page.</summary>
public readonly record struct PixelBox(int X, int Y, int Width, int Height);

/// <summary>One page: a print-ready file, as large as it is printed.</summary>
/// <param name="File">The TIFF, in the printer's colours.</param>
/// <param name="Ppi">Its pixels per inch.</param>
/// <param name="Trim">What is left when it is cut; none for the whole page.</param>
/// <param name="Bleed">What reaches over the cut; none for the same as <paramref name="Trim"/>.</param>
public sealed record PdfPage(string File, double Ppi, PixelBox? Trim = null, PixelBox? Bleed = null);

/// <summary>What a PDF says of itself.</summary>
/// <param name="Title">Of the picture or the sheet.</param>
/// <param name="Condition">The printing condition, in words.</param>
/// <param name="At">When it was made.</param>
public sealed record PdfTitle(string Title, string Condition, DateTimeOffset At);

/// <summary>Print-ready files as pages of a PDF 1.6 with an output intent: the numbers go to the printer as they are, and the profile says what they mean.</summary>
/// <remarks>
/// ISO 32000-1 (2008), from memory: images of 8 or 16 bits, Flate with the PNG predictor, output intents, boxes, metadata. It is
/// written from front to back, row by row, so that a picture of any size takes no memory and can go straight down a line.
/// It has no text, so no fonts; no scripts, no actions, no transparency. No conformity with a part of ISO 15930 is claimed,
/// since none was checked. See docs/decisions/0430.
/// </remarks>
public static class PdfPrint
{
    /// <summary>More pages than one print is ever cut into.</summary>
    public const int MostPages = PrintPieces.Most;

    private const double PointsPerInch = 72;
    private const double MostUnits = 14_400; // of a page's side (ISO 32000-1, annex C); larger ones have larger units
    private const long MostBytes = 9_999_999_999; // what ten figures of the cross-reference table reach
    private const byte Up = 2; // PNG's filter: each byte less the one above it

    /// <summary>Writes a PDF.</summary>
    /// <param name="to">Where to; written once from front to back, and not closed.</param>
    /// <param name="pages">The pages, in order.</param>
    /// <param name="profile">The profile of the printing condition.</param>
    /// <param name="title">What it is.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>How many bytes were written; or why none or only a part was.</returns>
    public static PictureResult<PdfWritten> Write(Stream to, IReadOnlyList<PdfPage> pages, byte[] profile, PdfTitle title, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(pages);
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(title);
        if (pages.Count is 0 or > MostPages)
        {
            return new PictureFault($"A PDF has 1 to {MostPages} pages.");
        }

        var images = new List<ImageFile>();
        foreach (var page in pages)
        {
            var probed = ImageFile.Probe(page.File);
            if (probed.Value is not { } image)
            {
                return probed.Fault!;
            }

            images.Add(image);
        }

        if (images.Any(i => i.Channels != images[0].Channels))
        {
            return new PictureFault("The pages were prepared for different inks. Prepare them again.");
        }

        try
        {
            var file = new Writing(new(to), pages.Count);
            return file.All(pages, images, profile, title, cancel);
        }
        catch (VipsException e)
        {
            return new PictureFault($"A prepared file is damaged: {ImageFile.FirstLine(e)}");
        }
        catch (IOException e)
        {
            return new PictureFault($"The PDF could not be written: {e.Message}");
        }
    }

    /// <summary>The objects while they are written: first the six of the whole, then four a page.</summary>
    private sealed class Writing(CountedStream file, int pages)
    {
        private const int Catalog = 1, Tree = 2, Info = 3, Metadata = 4, Intent = 5, Profile = 6, FirstPage = 7, ObjectsAPage = 4;

        private readonly long[] offsets = new long[FirstPage + (ObjectsAPage * pages)];

        public PictureResult<PdfWritten> All(IReadOnlyList<PdfPage> list, List<ImageFile> images, byte[] profile, PdfTitle title, CancellationToken cancel)
        {
            Text("%PDF-1.6\n");
            file.Write([(byte)'%', 0xE2, 0xE3, 0xCF, 0xD3, (byte)'\n']); // so that programs take it for binary
            Object(Catalog, $"<< /Type /Catalog /Pages {Tree} 0 R /Metadata {Metadata} 0 R /OutputIntents [{Intent} 0 R] >>");
            Object(Tree, $"<< /Type /Pages /Count {pages} /Kids [{string.Join(' ', Enumerable.Range(0, pages).Select(p => $"{Page(p)} 0 R"))}] >>");
            Object(Info, $"<< /Title {Hex(title.Title)} /Creator (Goodsheet) /Producer (Goodsheet) /CreationDate ({Date(title.At)}) /ModDate ({Date(title.At)}) /Trapped /False >>");
            Object(Intent, $"<< /Type /OutputIntent /S /GTS_PDFX /OutputConditionIdentifier (Custom) /OutputCondition {Hex(title.Condition)} /Info {Hex(title.Condition)} /DestOutputProfile {Profile} 0 R >>");
            var xmp = PdfXmp.Of(title, PictureNotes.Of(list[0].File));
            Stream(Metadata, "/Type /Metadata /Subtype /XML", xmp, packed: false);
            Stream(Profile, $"/N {images[0].Channels}", profile, packed: true);
            for (var p = 0; p < pages; p++)
            {
                PageOf(p, list[p], images[p], cancel);
                if (file.Written > MostBytes)
                {
                    return new PictureFault("The PDF would be larger than 10 GB: take the TIFF.");
                }
            }

            End(xmp);
            return new PdfWritten(file.Written);
        }

        private static int Page(int p) => FirstPage + (ObjectsAPage * p);

        private void PageOf(int p, PdfPage page, ImageFile image, CancellationToken cancel)
        {
            var (width, height) = (image.Width / page.Ppi * PointsPerInch, image.Height / page.Ppi * PointsPerInch);
            var unit = Math.Ceiling(Math.Max(1, Math.Max(width, height) / MostUnits));
            var point = PointsPerInch / page.Ppi / unit;
            var whole = new PixelBox(0, 0, image.Width, image.Height);
            string Box(PixelBox b) => $"[{N(b.X * point)} {N((image.Height - b.Y - b.Height) * point)} {N((b.X + b.Width) * point)} {N((image.Height - b.Y) * point)}]";
            var (content, pixels) = (Page(p) + 1, Page(p) + 2);
            Object(Page(p), $"<< /Type /Page /Parent {Tree} 0 R{(unit > 1 ? $" /UserUnit {N(unit)}" : "")} /MediaBox {Box(whole)} /BleedBox {Box(page.Bleed ?? page.Trim ?? whole)} /TrimBox {Box(page.Trim ?? whole)}"
                + $" /Resources << /XObject << /Im0 {pixels} 0 R >> >> /Contents {content} 0 R >>");
            Stream(content, "", Encoding.ASCII.GetBytes($"q {N(width / unit)} 0 0 {N(height / unit)} 0 0 cm /Im0 Do Q\n"), packed: false);
            Pixels(pixels, page.File, image, cancel);
        }

        // Its length is known when it is written: an object of its own after it says it.
        private void Pixels(int number, string path, ImageFile image, CancellationToken cancel)
        {
            var space = image.Channels switch { 1 => "DeviceGray", 3 => "DeviceRGB", _ => "DeviceCMYK" };
            Begin(number);
            Text($"<< /Type /XObject /Subtype /Image /Width {image.Width} /Height {image.Height} /ColorSpace /{space} /BitsPerComponent {image.Depth}"
                + $" /Filter /FlateDecode /DecodeParms << /Predictor 15 /Colors {image.Channels} /BitsPerComponent {image.Depth} /Columns {image.Width} >> /Length {number + 1} 0 R >>\nstream\n");
            var from = file.Written;
            using (var zip = new ZLibStream(file, CompressionLevel.Fastest, leaveOpen: true))
            using (var rows = PictureRows.Open(path))
            {
                var codes = new ushort[image.Width * image.Channels];
                var size = codes.Length * image.Depth / 8;
                var (row, above, packed) = (new byte[size], new byte[size], new byte[size + 1]);
                packed[0] = Up;
                for (var y = 0; y < image.Height; y++)
                {
                    cancel.ThrowIfCancellationRequested();
                    rows.Read(1, codes);
                    Bytes(codes, row, image.Depth);
                    for (var i = 0; i < size; i++)
                    {
                        packed[i + 1] = unchecked((byte)(row[i] - above[i]));
                    }

                    zip.Write(packed);
                    (row, above) = (above, row);
                }
            }

            var length = file.Written - from;
            Text("\nendstream\nendobj\n");
            Object(number + 1, length.ToString(CultureInfo.InvariantCulture));
        }

        // 16 bits with the high byte first; 8 bits were widened by the reader and are narrowed exactly.
        private static void Bytes(ReadOnlySpan<ushort> codes, Span<byte> row, int depth)
        {
            for (var i = 0; i < codes.Length; i++)
            {
                if (depth == 16)
                {
                    BinaryPrimitives.WriteUInt16BigEndian(row[(2 * i)..], codes[i]);
                }
                else
                {
                    row[i] = (byte)(codes[i] >> 8);
                }
            }
        }

        private void End(byte[] xmp)
        {
            var table = file.Written;
            Text($"xref\n0 {offsets.Length}\n0000000000 65535 f \n");
            foreach (var offset in offsets.Skip(1))
            {
                Text($"{offset:D10} 00000 n \n");
            }

            var id = Convert.ToHexString(SHA256.HashData([.. xmp, .. Encoding.ASCII.GetBytes($"{table}")]), 0, 16);
            Text($"trailer\n<< /Size {offsets.Length} /Root {Catalog} 0 R /Info {Info} 0 R /ID [<{id}> <{id}>] >>\nstartxref\n{table}\n%%EOF\n");
            file.Flush();
        }

        private void Object(int number, string body)
        {
            Begin(number);
            Text($"{body}\nendobj\n");
        }

        private void Stream(int number, string says, byte[] bytes, bool packed)
        {
            if (packed)
            {
                using var memory = new MemoryStream();
                using (var zip = new ZLibStream(memory, CompressionLevel.Optimal))
                {
                    zip.Write(bytes);
                }

                bytes = memory.ToArray();
            }

            Begin(number);
            Text($"<< {says}{(packed ? " /Filter /FlateDecode" : "")} /Length {bytes.Length} >>\nstream\n");
            file.Write(bytes);
            Text("\nendstream\nendobj\n");
        }

        private void Begin(int number)
        {
            offsets[number] = file.Written;
            Text($"{number} 0 obj\n");
        }

        private void Text(string text) => file.Write(Encoding.ASCII.GetBytes(text));

        private static string Hex(string text) => $"<FEFF{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(text))}>";

        private static string Date(DateTimeOffset at) => at.ToUniversalTime().ToString("'D:'yyyyMMddHHmmss'Z'", CultureInfo.InvariantCulture);

        // Down to the ten-thousandth of a point: a page must not be a hair larger than its pixels, or it is drawn with a bare row.
        private static string N(double value) => (Math.Floor((value * 1e4) + 1e-6) / 1e4).ToString("0.####", CultureInfo.InvariantCulture);
    }
}

/// <param name="Bytes">Of the whole file.</param>
public sealed record PdfWritten(long Bytes);
