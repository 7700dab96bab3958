using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Measurement;
using Goodsheet.Imaging;

namespace Goodsheet.App.Profiles;

/// <summary>Draws a sheet of a chart for the printer: patches, marks in the corners, the letters of strips, the sheet's name.</summary>
internal sealed class ChartDrawing
{
    private const double MillimetresPerInch = 25.4;
    private const double MarkAtMm = 6;
    private const double MarkMm = 4;
    private const double LetterMm = 2.8;

    private readonly int channels;
    private readonly ushort[] paper;
    private readonly double perMm;
    private readonly List<(int Left, int Top, int Right, int Bottom, ushort[] Colour)> boxes = [];
    private readonly List<(int Left, int Top, int Dot, string Text)> texts = [];

    public ChartDrawing(Chart chart, int sheet, double ppi, string name)
    {
        (channels, perMm) = (chart.Patches[0].Device.Length, ppi / MillimetresPerInch);
        paper = [.. Enumerable.Repeat(chart.Space is DeviceSpace.Cmyk ? (ushort)0 : ushort.MaxValue, channels)];
        var page = chart.Sheet;
        (Width, Height) = (Pixels(page.WidthMm), Pixels(page.HeightMm));
        var black = Black(chart.Space);
        foreach (var x in (double[])[MarkAtMm, page.WidthMm - MarkAtMm - MarkMm])
        {
            foreach (var y in (double[])[MarkAtMm, page.HeightMm - MarkAtMm - MarkMm])
            {
                // The upper left mark is a corner, so that a sheet tells which way up it is.
                Box(x, y, MarkMm, MarkMm / 4, black);
                Box(x, y, MarkMm / 4, MarkMm, black);
                if (x > MarkAtMm || y > MarkAtMm)
                {
                    Box(x, y, MarkMm, MarkMm, black);
                }
            }
        }

        foreach (var (patch, i) in chart.Patches.Skip(sheet * page.Patches).Take(page.Patches).Select((p, i) => (p, i)))
        {
            var (strip, place) = (i / page.PatchesInStrip, i % page.PatchesInStrip);
            var top = ChartSheet.TopMm + (strip * (page.PatchAcrossMm + page.GapMm));
            Box(page.LeftMm + (place * (page.PatchAlongMm + page.GapMm)), top, page.PatchAlongMm, page.PatchAcrossMm, [.. patch.Device.Select(Code)]);
            if (place == 0)
            {
                Text(ChartSheet.MarginMm, top + ((page.PatchAcrossMm - LetterMm) / 2), patch.Place[..^1]);
            }
        }

        Text(ChartSheet.MarginMm + MarkMm, page.HeightMm - ChartSheet.MarginMm - ChartSheet.NameMm + 3, $"{name} - sheet {sheet + 1} of {chart.Sheets}");
    }

    public int Width { get; }

    public int Height { get; }

    public void Write(string path, double ppi) => DrawnTiff.Write(path, Width, Height, channels, ppi, Row);

    internal void Row(int y, ushort[] row)
    {
        for (var i = 0; i < row.Length; i++)
        {
            row[i] = paper[i % channels];
        }

        foreach (var (left, top, right, bottom, colour) in boxes)
        {
            if (y >= top && y < bottom)
            {
                for (var x = left; x < right; x++)
                {
                    colour.CopyTo(row, x * channels);
                }
            }
        }

        foreach (var (left, top, dot, text) in texts)
        {
            var line = y < top ? -1 : (y - top) / dot;
            for (var x = left; line is >= 0 and < ChartLettering.Rows && x < Math.Min(Width, left + (text.Length * (ChartLettering.Columns + 1) * dot)); x++)
            {
                if (ChartLettering.IsDark(text, (x - left) / dot, line))
                {
                    for (var c = 0; c < channels; c++)
                    {
                        row[(x * channels) + c] = channels == 4 ? (c == 3 ? ushort.MaxValue : (ushort)0) : (ushort)0;
                    }
                }
            }
        }
    }

    private static ushort[] Black(DeviceSpace space) => space switch
    {
        DeviceSpace.Grey => [0],
        DeviceSpace.Rgb => [0, 0, 0],
        _ => [0, 0, 0, ushort.MaxValue],
    };

    private static ushort Code(double device) => (ushort)Math.Round(device * ushort.MaxValue);

    private int Pixels(double mm) => (int)Math.Round(mm * perMm);

    private void Box(double x, double y, double width, double height, ushort[] colour) => boxes.Add((
        Math.Clamp(Pixels(x), 0, Width), Pixels(y), Math.Clamp(Pixels(x + width), 0, Width), Pixels(y + height), colour));

    private void Text(double x, double y, string text) => texts.Add((Pixels(x), Pixels(y), Math.Max(1, Pixels(LetterMm / ChartLettering.Rows)), text));
}
