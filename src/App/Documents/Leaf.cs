using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Goodsheet.App.Documents;

/// <summary>One page of a document while it is drawn: millimetres from its upper left corner, black on white.</summary>
internal sealed class Leaf : IDisposable
{
    private const double Capital = 0.72; // height of a capital, of the size: a line of type hangs from its top
    private const string More = "…";

    private readonly XGraphics at;

    public Leaf(PdfDocument document, double width, double height)
    {
        (Width, Height) = (width, height);
        var page = document.AddPage();
        (page.Width, page.Height) = (XUnit.FromMillimeter(width), XUnit.FromMillimeter(height));
        at = XGraphics.FromPdfPage(page, XGraphicsUnit.Millimeter);
    }

    public double Width { get; }

    public double Height { get; }

    public void Dispose() => at.Dispose();

    public double WidthOf(string text, Face face, double size) => at.MeasureString(text, Lettering.Of(face, size)).Width;

    /// <summary>A line of type whose capitals begin at <paramref name="top"/>.</summary>
    public void Type(string text, double left, double top, Face face, double size) =>
        at.DrawString(text, Lettering.Of(face, size), XBrushes.Black, left, top + (size * Capital));

    public void TypeRight(string text, double right, double top, Face face, double size) =>
        Type(text, right - WidthOf(text, face, size), top, face, size);

    public void TypeCentred(string text, double middle, double top, Face face, double size) =>
        Type(text, middle - (WidthOf(text, face, size) / 2), top, face, size);

    /// <summary>A line that is made smaller to fit, down to the least size, and then cut off with three points.</summary>
    public void TypeFitted(string text, double left, double top, double width, Face face, double size, double least)
    {
        var needs = WidthOf(text, face, size);
        var fits = needs <= width ? size : Math.Max(least, size * width / needs);
        Type(CutOff(text, width, face, fits), left, top, face, fits);
    }

    /// <summary>The lines of a text in a width, at most so many; a word longer than the width is broken.</summary>
    public IReadOnlyList<string> Lines(string text, double width, Face face, double size, int most = int.MaxValue)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).SelectMany(w => Parts(w, width, face, size)))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && WidthOf(longer, face, size) > width)
            {
                lines.Add(line);
                longer = word;
            }

            line = longer;
        }

        if (line.Length > 0)
        {
            lines.Add(line);
        }

        return lines.Count <= most ? lines
            : [.. lines.Take(most - 1), CutOff(string.Join(' ', lines.Skip(most - 1)), width, face, size)];
    }

    public void Line(double x1, double y1, double x2, double y2, double thick = 0.2) => at.DrawLine(new(XColors.Black, thick), x1, y1, x2, y2);

    public void Dashed(double x1, double y1, double x2, double y2)
    {
        var pen = new XPen(XColors.Black, 0.3) { DashStyle = XDashStyle.Custom, DashPattern = [7, 3, 2, 3] };
        at.DrawLine(pen, x1, y1, x2, y2);
    }

    /// <summary>A line through many places, whole or in dashes of so many times its thickness.</summary>
    public void Through(IReadOnlyList<(double X, double Y)> places, double thick = 0.4, double dash = 0)
    {
        var pen = new XPen(XColors.Black, thick) { LineJoin = XLineJoin.Round };
        if (dash > 0)
        {
            (pen.DashStyle, pen.DashPattern) = (XDashStyle.Custom, [dash, dash * 0.7]);
        }

        at.DrawLines(pen, [.. places.Select(p => new XPoint(p.X, p.Y))]);
    }

    public void Box(double x, double y, double width, double height, double thick = 0.3) =>
        at.DrawRectangle(new XPen(XColors.Black, thick), x, y, width, height);

    /// <param name="grey">0 is black, 1 the paper.</param>
    public void Tint(double x, double y, double width, double height, double grey) =>
        at.DrawRectangle(new XSolidBrush(XColor.FromGrayScale(grey)), x, y, width, height);

    public void White(double x, double y, double width, double height)
    {
        at.DrawRectangle(XBrushes.White, x, y, width, height);
        Box(x, y, width, height, 0.1);
    }

    public void Disc(double x, double y, double radius, string number)
    {
        at.DrawEllipse(XBrushes.White, x - radius, y - radius, 2 * radius, 2 * radius);
        at.DrawEllipse(new XPen(XColors.Black, 0.25), x - radius, y - radius, 2 * radius, 2 * radius);
        var size = number.Length > 2 ? radius : 1.3 * radius;
        TypeCentred(number, x, y - (size * Capital / 2), Face.Strong, size);
    }

    /// <summary>The hatched edge of a caution.</summary>
    public void Hatch(double x, double y, double width, double height)
    {
        var state = at.Save();
        at.IntersectClip(new XRect(x, y, width, height));
        for (var from = y - width; from < y + height + width; from += 2)
        {
            at.DrawLine(new XPen(XColors.Black, 0.6), x, from + width, x + width, from);
        }

        at.Restore(state);
        Box(x, y, width, height);
    }

    /// <summary>A QR code with its quiet zone inside the given square.</summary>
    public void Qr(QrCode code, double x, double y, double side)
    {
        var module = side / (code.Size + (2 * QrCode.QuietZone));
        var overlap = module * 0.02; // hides the hairline between rows that some viewers draw
        foreach (var (column, row, length) in code.Stretches())
        {
            at.DrawRectangle(
                XBrushes.Black, x + ((column + QrCode.QuietZone) * module), y + ((row + QrCode.QuietZone) * module), length * module, module + overlap);
        }
    }

    /// <summary>A JPEG, as large as fits into a box and keeps its shape, from its upper left corner.</summary>
    public void Picture(byte[] jpeg, double x, double y, double width, double height)
    {
        using var picture = XImage.FromStream(new MemoryStream(jpeg));
        var scale = Math.Min(width / picture.PixelWidth, height / picture.PixelHeight);
        at.DrawImage(picture, x, y, picture.PixelWidth * scale, picture.PixelHeight * scale);
    }

    private string CutOff(string text, double width, Face face, double size)
    {
        if (WidthOf(text, face, size) <= width)
        {
            return text;
        }

        var kept = text.Length;
        while (kept > 0 && WidthOf(text[..kept].TrimEnd() + More, face, size) > width)
        {
            kept--;
        }

        return text[..kept].TrimEnd() + More;
    }

    private IEnumerable<string> Parts(string word, double width, Face face, double size)
    {
        while (word.Length > 1 && WidthOf(word, face, size) > width)
        {
            var kept = word.Length - 1;
            while (kept > 1 && WidthOf(word[..kept], face, size) > width)
            {
                kept--;
            }

            yield return word[..kept];
            word = word[kept..];
        }

        yield return word;
    }
}
