using Goodsheet.App.Profiles;
using Goodsheet.Imaging;

namespace Goodsheet.App.Printing;

/// <summary>Words of five by seven dots, as marks of a sheet that goes to a printer: no font, no rendering between.</summary>
internal static class DotText
{
    /// <summary>A dot, in mm, of what is read at arm's length.</summary>
    public const double DotMm = 0.25;

    /// <summary>The height of a line with what stands under it.</summary>
    public static double LineMm(double dot = DotMm) => dot * (ChartLettering.Rows + 3);

    public static double WidthMm(string text, double dot = DotMm) => text.Length * dot * (ChartLettering.Columns + 1);

    /// <summary>A line of text.</summary>
    public static IEnumerable<SheetMark> Marks(string text, double x, double y, double dot = DotMm) =>
        from row in Enumerable.Range(0, ChartLettering.Rows)
        from column in Enumerable.Range(0, text.Length * (ChartLettering.Columns + 1))
        where ChartLettering.IsDark(text, column, row)
        select new SheetMark(x + (column * dot), y + (row * dot), dot, dot);

    /// <summary>The lines of a text in a width; what is left of a word that is too long begins the next.</summary>
    public static IReadOnlyList<string> Lines(string text, double widthMm, double dot = DotMm)
    {
        var most = Math.Max(1, (int)(widthMm / (dot * (ChartLettering.Columns + 1))));
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(w => w.Chunk(most).Select(c => new string(c))))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > most)
            {
                lines.Add(line);
                line = "";
            }

            line = line.Length == 0 ? word : $"{line} {word}";
        }

        return line.Length > 0 ? [.. lines, line] : lines;
    }
}
