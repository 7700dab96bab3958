using PdfSharp.Pdf;

namespace Goodsheet.App.Documents;

/// <summary>A4 pages that are filled from above; what does not fit begins the next page, under a line that says whose it is.</summary>
internal sealed class Flow : IDisposable
{
    public const double Left = 15, Right = 195, Width = Right - Left;

    private const double Top = 14, Bottom = 279, Foot = 285;

    private readonly PdfDocument document;
    private readonly string foot, continued;

    public Flow(PdfDocument document, string foot, string continued)
    {
        (this.document, this.foot, this.continued) = (document, foot, continued);
        Leaf = Begin();
    }

    public Leaf Leaf { get; private set; }

    /// <summary>Where the next thing goes.</summary>
    public double Y { get; set; }

    public double Free => Bottom - Y;

    public void Dispose() => Leaf.Dispose();

    /// <summary>Begins a new page unless so much is free on this one.</summary>
    public void Room(double height)
    {
        if (Y + height > Bottom && Y > Top + 10)
        {
            Leaf.Dispose();
            Leaf = Begin();
            Leaf.Type(continued, Left, Y, Face.Strong, 3.7);
            Y += 6;
            Rule(0.4);
        }
    }

    public void Rule(double thick, double after = 3)
    {
        Leaf.Line(Left, Y, Right, Y, thick);
        Y += after;
    }

    public void Heading(string words)
    {
        Room(18);
        Leaf.Type(words, Left, Y, Face.Strong, 4.6);
        Y += 6.4;
    }

    public void Words(string words, double size = 3.4)
    {
        foreach (var line in Leaf.Lines(words, Width, Face.Text, size))
        {
            Room(5);
            Leaf.Type(line, Left, Y, Face.Text, size);
            Y += 4.6;
        }

        Y += 1.5;
    }

    /// <summary>A ruled box with what matters in strong type before it.</summary>
    public void Note(string what, string how, bool hatched)
    {
        const double size = 3.4;
        var indent = hatched ? 8.0 : 4.0;
        var strong = Leaf.WidthOf(what + " ", Face.Strong, size);
        var first = Leaf.Lines(how, Width - indent - 4 - strong, Face.Text, size);
        var rest = first.Count < 2 ? [] : Leaf.Lines(string.Join(' ', first.Skip(1)), Width - indent - 4, Face.Text, size);
        var height = ((1 + rest.Count) * 4.6) + 3.4;
        Room(height + 2);
        if (hatched)
        {
            Leaf.Hatch(Left, Y, 5, height);
        }

        Leaf.Box(Left, Y, Width, height);
        Leaf.Type(what, Left + indent, Y + 2.2, Face.Strong, size);
        Leaf.Type(first.Count > 0 ? first[0] : "", Left + indent + strong, Y + 2.2, Face.Text, size);
        for (var i = 0; i < rest.Count; i++)
        {
            Leaf.Type(rest[i], Left + indent, Y + 2.2 + ((i + 1) * 4.6), Face.Text, size);
        }

        Y += height + 2;
    }

    private Leaf Begin()
    {
        var leaf = new Leaf(document, 210, 297);
        leaf.TypeFitted(foot, Left, Foot, Width - 20, Face.Text, 3, 2.4);
        leaf.TypeRight($"page {document.PageCount}", Right, Foot, Face.Text, 3);
        Y = Top;
        return leaf;
    }
}
