using System.Globalization;
using System.Text;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Goodsheet.App.Documents;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.App.Profiles;

/// <summary>Draws a chart as PDF, one page a sheet at its own size, in bare device colours without any profile.</summary>
/// <remarks>Boxes are written here, with six decimals, so that whoever reads the page has the very levels of 16 bits that the TIFF has;
/// PDFsharp, which writes the letters, would round device values to levels of 8 bits. See docs/decisions/0412.</remarks>
internal static class ChartPages
{
    private const double TypeMm = 3.6; // its capitals are as high as those of the TIFF

    public static byte[] Draw(Chart chart, string name)
    {
        using var document = new PdfDocument();
        document.Info.Title = name;
        document.Options.ColorMode = chart.Space is DeviceSpace.Cmyk ? PdfColorMode.Cmyk : PdfColorMode.Rgb;
        for (var sheet = 0; sheet < chart.Sheets; sheet++)
        {
            var layout = ChartLayout.Of(chart, sheet, name);
            var page = document.AddPage();
            (page.Width, page.Height) = (XUnit.FromMillimeter(layout.WidthMm), XUnit.FromMillimeter(layout.HeightMm));
            page.Contents.AppendContent().CreateStream(Boxes(layout));
            using var at = XGraphics.FromPdfPage(page, XGraphicsUnit.Millimeter);
            var black = new XSolidBrush(chart.Space is DeviceSpace.Cmyk ? XColor.FromCmyk(0, 0, 0, 1) : XColor.FromArgb(0, 0, 0));
            foreach (var text in layout.Texts)
            {
                at.DrawString(text.Words, Lettering.Of(Face.Text, TypeMm), black, text.X, text.Y + ChartLayout.LetterMm);
            }
        }

        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        return bytes.ToArray();
    }

    // Filled rectangles in the operators of a page (ISO 32000-1, 8.5 and 8.6.4, from memory); a page is counted in points from its lower left corner.
    private static byte[] Boxes(ChartLayout layout)
    {
        var page = new StringBuilder("q\n");
        foreach (var box in layout.Boxes)
        {
            var (x, y) = (Points(box.X), Points(layout.HeightMm - box.Y - box.Height));
            page.Append(CultureInfo.InvariantCulture, $"{Fill(box.Device)} {x:0.####} {y:0.####} {Points(box.Width):0.####} {Points(box.Height):0.####} re f\n");
        }

        return Encoding.ASCII.GetBytes(page.Append("Q\n").ToString());
    }

    // Grey as equal parts of red, green and blue, as drivers take it.
    private static string Fill(IReadOnlyList<double> device) => device.Count switch
    {
        1 => string.Create(CultureInfo.InvariantCulture, $"{Level(device[0])} {Level(device[0])} {Level(device[0])} rg"),
        3 => string.Create(CultureInfo.InvariantCulture, $"{Level(device[0])} {Level(device[1])} {Level(device[2])} rg"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{Level(device[0])} {Level(device[1])} {Level(device[2])} {Level(device[3])} k"),
    };

    // The level of 16 bits that is printed from the TIFF, as a part of the highest: half a level is 0.0000076.
    private static string Level(double device) => (ChartDrawing.Code(device) / (double)ushort.MaxValue).ToString("0.######", CultureInfo.InvariantCulture);

    private static double Points(double mm) => mm * 72 / 25.4;
}
