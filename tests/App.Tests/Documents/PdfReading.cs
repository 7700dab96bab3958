using UglyToad.PdfPig;
using UglyToad.PdfPig.Graphics.Operations;
using UglyToad.PdfPig.Graphics.Operations.PathConstruction;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace Goodsheet.App.Tests.Documents;

/// <summary>Reads a document as others would: its words by PdfPig, its QR code by ZXing from the shapes that are drawn.</summary>
internal static class PdfReading
{
    public static string Text(byte[] pdf, int? page = null)
    {
        using var document = PdfDocument.Open(pdf);
        return string.Join(' ', document.GetPages().Where(p => page is null || p.Number == page)
            .SelectMany(p => p.GetWords()).Select(w => w.Text));
    }

    public static (double WidthMm, double HeightMm)[] Sizes(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        return [.. document.GetPages().Select(p => (Math.Round(p.Width / 72 * 25.4, 1), Math.Round(p.Height / 72 * 25.4, 1)))];
    }

    /// <summary>Words whose letters leave the page.</summary>
    public static IReadOnlyList<string> Outside(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        return [.. document.GetPages().SelectMany(p => p.GetWords().Where(w =>
            w.BoundingBox.Left < 0 || w.BoundingBox.Right > p.Width || w.BoundingBox.Bottom < 0 || w.BoundingBox.Top > p.Height)).Select(w => w.Text)];
    }

    /// <summary>The rectangles that the stream of a page fills, and the numbers they are filled with, in mm from the upper left corner.</summary>
    public static IReadOnlyList<(double X, double Y, double Width, double Height, double[] Colour)> Fills(byte[] pdf, int page)
    {
        using var document = PdfDocument.Open(pdf);
        var read = document.GetPage(page);
        var (fills, colour) = (new List<(double, double, double, double, double[])>(), Array.Empty<double>());
        foreach (var operation in read.Operations)
        {
            colour = operation switch
            {
                SetNonStrokeColorDeviceRgb c => [c.R, c.G, c.B],
                SetNonStrokeColorDeviceCmyk c => [c.C, c.M, c.Y, c.K],
                _ => colour,
            };
            if (operation is AppendRectangle box)
            {
                const double mm = 25.4 / 72;
                fills.Add((box.LowerLeftX * mm, (read.Height - box.LowerLeftY - box.Height) * mm, box.Width * mm, box.Height * mm, colour));
            }
        }

        return fills;
    }

    /// <summary>What a reader makes of the filled shapes on a page.</summary>
    public static string? Code(byte[] pdf, int page = 1)
    {
        using var document = PdfDocument.Open(pdf);
        var read = document.GetPage(page);
        const double perPoint = 6;
        var (width, height) = ((int)(read.Width * perPoint), (int)(read.Height * perPoint));
        var light = new byte[width * height];
        Array.Fill(light, (byte)255);
        foreach (var box in read.Paths.Where(p => p.IsFilled && !p.IsStroked).Select(p => p.GetBoundingRectangle()).OfType<UglyToad.PdfPig.Core.PdfRectangle>())
        {
            for (var y = (int)Math.Round((read.Height - box.Top) * perPoint); y < Math.Min(height, (int)Math.Round((read.Height - box.Bottom) * perPoint)); y++)
            {
                for (var x = (int)Math.Round(box.Left * perPoint); x < Math.Min(width, (int)Math.Round(box.Right * perPoint)); x++)
                {
                    light[(y * width) + x] = 0;
                }
            }
        }

        var source = new RGBLuminanceSource(light, width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        return new QRCodeReader().decode(
            new BinaryBitmap(new HybridBinarizer(source)), new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true })?.Text;
    }
}
