using Goodsheet.Colour.Measurement;
using Goodsheet.Imaging;

namespace Goodsheet.App.Profiles;

/// <summary>Draws a sheet of a chart for the printer, at its own pixels.</summary>
internal sealed class ChartDrawing
{
    private const double MillimetresPerInch = 25.4;

    private readonly int channels;
    private readonly ushort[] paper;
    private readonly double perMm;
    private readonly List<(int Left, int Top, int Right, int Bottom, ushort[] Colour)> boxes = [];
    private readonly List<(int Left, int Top, int Dot, string Text)> texts = [];

    public ChartDrawing(ChartLayout layout, double ppi)
    {
        (channels, perMm) = (ChartLayout.Black(layout.Space).Count, ppi / MillimetresPerInch);
        paper = [.. Enumerable.Repeat(layout.Space is DeviceSpace.Cmyk ? (ushort)0 : ushort.MaxValue, channels)];
        (Width, Height) = (Pixels(layout.WidthMm), Pixels(layout.HeightMm));
        boxes.AddRange(layout.Boxes.Select(b => (
            Math.Clamp(Pixels(b.X), 0, Width), Pixels(b.Y), Math.Clamp(Pixels(b.X + b.Width), 0, Width), Pixels(b.Y + b.Height), (ushort[])[.. b.Device.Select(Code)])));
        texts.AddRange(layout.Texts.Select(t => (Pixels(t.X), Pixels(t.Y), Math.Max(1, Pixels(ChartLayout.LetterMm / ChartLettering.Rows)), t.Words)));
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

    /// <summary>The level of 16 bits that a device value is printed at.</summary>
    public static ushort Code(double device) => (ushort)Math.Round(device * ushort.MaxValue);

    private int Pixels(double mm) => (int)Math.Round(mm * perMm);
}
