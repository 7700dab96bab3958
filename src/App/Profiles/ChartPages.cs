using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Goodsheet.App.Documents;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.App.Profiles;

/// <summary>Draws a chart as PDF, one page a sheet at its own size, in bare device colours without any profile.</summary>
/// <remarks>PDFsharp writes device values with three decimals: nearer than a quarter of a level of 255.</remarks>
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
            using var at = XGraphics.FromPdfPage(page, XGraphicsUnit.Millimeter);
            foreach (var box in layout.Boxes)
            {
                at.DrawRectangle(new XSolidBrush(Colour(box.Device)), box.X, box.Y, box.Width, box.Height);
            }

            var black = new XSolidBrush(Colour(ChartLayout.Black(chart.Space)));
            foreach (var text in layout.Texts)
            {
                at.DrawString(text.Words, Lettering.Of(Face.Text, TypeMm), black, text.X, text.Y + ChartLayout.LetterMm);
            }
        }

        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        return bytes.ToArray();
    }

    private static XColor Colour(IReadOnlyList<double> device) => device.Count switch
    {
        1 => XColor.FromArgb(Level(device[0]), Level(device[0]), Level(device[0])),
        3 => XColor.FromArgb(Level(device[0]), Level(device[1]), Level(device[2])),
        _ => XColor.FromCmyk(device[0], device[1], device[2], device[3]),
    };

    private static int Level(double device) => (int)Math.Round(255 * device);
}
