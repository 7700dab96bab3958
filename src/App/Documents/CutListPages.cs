using System.Globalization;
using Goodsheet.App.Runs;

namespace Goodsheet.App.Documents;

/// <summary>The cut list of a run: each way a sheet is laid drawn once to scale, and every cut with its stop.</summary>
internal sealed class CutListPages(Flow flow, RunLayout layout)
{
    private const double DrawingWidth = 78, LeastHeight = 48, MostHeight = 96, Line = 4.3, Type = 3.2;
    private const int Columns = 3;
    private const int MostNumbers = 60; // more would lie on each other

    public void Draw()
    {
        if (layout.Sheets.Count == 0)
        {
            return;
        }

        flow.Room(LeastHeight + 14); // its heading does not stand alone
        flow.Heading(layout.Cuts == 0 ? "Layout" : "Cut list");
        foreach (var group in layout.Groups())
        {
            Group(group);
        }
    }

    private void Group(RunLayout.Alike group)
    {
        var sheet = group.Sheet;
        flow.Room(LeastHeight + 7);
        var scale = Math.Min((DrawingWidth - 14) / sheet.Width, (Math.Min(MostHeight, flow.Free - 7) - 12) / sheet.Height);
        var height = Math.Max((sheet.Height * scale) + 13, 30);
        flow.Leaf.Type($"{group.Name(layout.IsRoll)}: {sheet.Width:0.#} × {sheet.Height:0.#} mm, {sheet.Prints.Count} {(sheet.Prints.Count == 1 ? "print" : "prints")}", Flow.Left, flow.Y, Face.Strong, 3.4);
        flow.Y += 5.5;
        Sheet(sheet, new(Flow.Left + 8, flow.Y + 7, scale));
        var written = Beside(sheet.Cuts, height);
        flow.Y += height + 2;
        Below([.. sheet.Cuts.Skip(written)]);
    }

    private void Sheet(RunLayout.OneSheet sheet, Frame at)
    {
        var leaf = flow.Leaf;
        leaf.TypeCentred($"{sheet.Width:0.#} mm, this end first", at.X + (sheet.Width * at.Scale / 2), at.Y - 7, Face.Text, 2.8);
        leaf.Tint(at.X, at.Y, sheet.Width * at.Scale, sheet.Height * at.Scale, 0.88);
        leaf.Box(at.X, at.Y, sheet.Width * at.Scale, sheet.Height * at.Scale);
        foreach (var print in sheet.Prints)
        {
            var (x, y, width, height) = at.Of(print.At);
            leaf.White(x, y, width, height);
            if (height > 5 && width > 9)
            {
                var title = leaf.Lines(print.Title, width - 2, Face.Title, 2.8, most: 1);
                leaf.TypeCentred(title.Count > 0 ? title[0] : "", x + (width / 2), y + (height / 2) - (height > 9 ? 3 : 1), Face.Title, 2.8);
                if (height > 9 && leaf.WidthOf(print.Size, Face.Text, 2.8) < width - 1)
                {
                    leaf.TypeCentred(print.Size, x + (width / 2), y + (height / 2) + 1, Face.Text, 2.8);
                }
            }
        }

        var radius = sheet.Cuts.Count > 30 ? 1.3 : 1.9;
        foreach (var cut in sheet.Cuts)
        {
            var (x, y, length) = (at.X + (cut.X * at.Scale), at.Y + (cut.Y * at.Scale), cut.Length * at.Scale);
            leaf.Dashed(x, y, cut.Along ? x : x + length, cut.Along ? y + length : y);
        }

        foreach (var (number, x, y) in sheet.Cuts.Count > MostNumbers ? [] : sheet.NumbersAt(at.Scale, radius))
        {
            leaf.Disc(at.X + x, at.Y + y, radius, number.ToString(CultureInfo.CurrentCulture));
        }
    }

    // As many cuts as there is room for, right of the drawing; returns how many.
    private int Beside(IReadOnlyList<RunLayout.OneCut> cuts, double height)
    {
        var left = Flow.Left + DrawingWidth + 6;
        var y = flow.Y;
        for (var i = 0; i < cuts.Count; i++)
        {
            var lines = flow.Leaf.Lines(Sentence(cuts[i]), Flow.Right - left, Face.Text, Type);
            if (y + (lines.Count * Line) > flow.Y + height)
            {
                return i;
            }

            foreach (var line in lines)
            {
                flow.Leaf.Type(line, left, y, Face.Text, Type);
                y += Line;
            }
        }

        return cuts.Count;
    }

    private void Below(RunLayout.OneCut[] cuts)
    {
        const double width = (Flow.Width - 8) / Columns;
        for (var i = 0; i < cuts.Length; i += Columns)
        {
            var row = cuts.Skip(i).Take(Columns).Select(c => flow.Leaf.Lines(Sentence(c), width, Face.Text, Type)).ToArray();
            var height = (row.Max(l => l.Count) * Line) + 0.8;
            flow.Room(height);
            for (var column = 0; column < row.Length; column++)
            {
                for (var k = 0; k < row[column].Count; k++)
                {
                    flow.Leaf.Type(row[column][k], Flow.Left + (column * (width + 4)), flow.Y + (k * Line), Face.Text, Type);
                }
            }

            flow.Y += height;
        }

        flow.Y += 2;
    }

    private string Sentence(RunLayout.OneCut cut)
    {
        var words = cut.Words(layout.IsRoll);
        return $"{cut.Number}. {char.ToUpper(words[0], CultureInfo.CurrentCulture)}{words[1..]}";
    }

    private readonly record struct Frame(double X, double Y, double Scale)
    {
        public (double X, double Y, double Width, double Height) Of(RunLayout.Place place) =>
            (X + (place.X * Scale), Y + (place.Y * Scale), place.Width * Scale, place.Height * Scale);
    }
}
