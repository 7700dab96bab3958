using System.Globalization;
using System.Net;
using System.Text;
using Goodsheet.Room.Layout;

namespace Goodsheet.App.Documents;

/// <summary>A layout drawn to scale: ink on the sheet, pieces named, cuts dashed and numbered in their order.</summary>
/// <remarks>Lettering is 13 px at the drawing's true size; offcuts are tinted, so that nothing is told by colour.</remarks>
public static class LayoutSvg
{
    /// <summary>Sheets that are drawn; the cut list has all of them.</summary>
    public const int MostSheets = 40;

    private const double Width = 400;
    private const double Edge = 28;
    private const double Letter = 13;
    private const double LetterWidth = 7.2; // mean advance at 13 px, near enough to leave a name out where it would not fit

    public static string Draw(Nest nest)
    {
        var scale = (Width - (2 * Edge)) / nest.Stock.Width.Micrometres;
        var drawn = nest.Sheets.Take(MostSheets).ToArray();
        var height = (4 * Letter) + drawn.Sum(s => (s.Height * scale) + (2 * Edge));
        var text = new StringBuilder();
        var (finding, detail) = Says(nest);
        text.Append(CultureInfo.InvariantCulture, $"""
            <svg xmlns="http://www.w3.org/2000/svg" role="img" width="{Width}" height="{height:0.#}" viewBox="0 0 {Width} {height:0.#}" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="{Letter}" fill="#161616">
            <title>{finding}</title>
            <desc>{detail} Cuts are dashed and numbered in the order to make them; offcuts are tinted.</desc>
            <rect width="{Width}" height="{height:0.#}" fill="#fdfdfd"/>
            <text x="{Edge}" y="{1.5 * Letter}" font-weight="600">{finding}</text>
            <text x="{Edge}" y="{3 * Letter}" fill="#4c4c4c">{detail}</text>

            """);
        var top = 4 * Letter;
        foreach (var sheet in drawn)
        {
            Sheet(text, nest, sheet, new(scale, Edge, top + Edge));
            top += (sheet.Height * scale) + (2 * Edge);
        }

        return text.Append("</svg>\n").ToString();
    }

    private static (string Finding, string Detail) Says(Nest nest)
    {
        var pieces = nest.Sheets.Sum(s => s.Placements.Count);
        var (took, least) = nest.Stock.IsRoll
            ? ($"{Mm(nest.Cost)} mm of roll", $"{Mm(nest.Bound)} mm")
            : ($"{nest.Cost} {(nest.Cost == 1 ? "sheet" : "sheets")}", $"{nest.Bound}");
        var used = 100 * nest.Sheets.SelectMany(s => s.Placements).Sum(p => (double)p.Place.Size) / nest.Sheets.Sum(s => (double)s.Width * s.Height);
        var rest = nest.Sheets.Count > MostSheets ? $" The first {MostSheets} are drawn." : "";
        return ($"{pieces} {(pieces == 1 ? "piece" : "pieces")} on {took}", string.Create(CultureInfo.InvariantCulture, $"{used:0} % of the paper is used. ") + (nest.IsBest ? "No layout takes less." : $"None can take less than {least}.") + rest);
    }

    private static void Sheet(StringBuilder text, Nest nest, CutSheet sheet, Frame at)
    {
        Rectangle(text, at, new(0, 0, sheet.Width, sheet.Height), """fill="none" stroke="#6f6f6f" """);
        sheet.Offcuts.ToList().ForEach(o => Rectangle(text, at, o, """fill="#dadada" """));
        foreach (var placed in sheet.Placements)
        {
            Rectangle(text, at, placed.Place, """fill="#fdfdfd" stroke="#161616" """);
            Name(text, at, nest.Pieces[placed.Piece].Name, placed.Place);
        }

        foreach (var cut in CutList.Of(nest.Stock, sheet))
        {
            Cut(text, at, cut);
        }
    }

    private static void Name(StringBuilder text, Frame at, string name, Area a)
    {
        if (name.Length * LetterWidth < at.Size(a.Width) - 4 && at.Size(a.Height) > 2 * Letter)
        {
            text.Append(CultureInfo.InvariantCulture, $"""
                <text x="{at.X(a.X + (a.Width / 2)):0.#}" y="{at.Y(a.Y + (a.Height / 2)) + (Letter / 3):0.#}" text-anchor="middle">{WebUtility.HtmlEncode(name)}</text>

                """);
        }
    }

    private static void Cut(StringBuilder text, Frame at, NumberedCut cut)
    {
        var (part, along) = (cut.Of.Place, cut.Direction is CutDirection.Along);
        var stop = cut.Stop + (cut.Knife / 2);
        var (x1, y1) = along ? (part.X + stop, part.Y) : (part.X, part.Y + stop);
        var (x2, y2) = along ? (x1, part.Bottom) : (part.Right, y1);
        text.Append(CultureInfo.InvariantCulture, $"""
            <path d="M{at.X(x1):0.#} {at.Y(y1):0.#}L{at.X(x2):0.#} {at.Y(y2):0.#}" stroke="#6f6f6f" stroke-dasharray="6 4" fill="none"/>
            <text x="{at.X(x1) + 2:0.#}" y="{at.Y(y1) + (along ? Letter : -2):0.#}" fill="#4c4c4c">{cut.Number}</text>

            """);
    }

    private static void Rectangle(StringBuilder text, Frame at, Area a, string how) => text.Append(CultureInfo.InvariantCulture, $"""
        <rect x="{at.X(a.X):0.#}" y="{at.Y(a.Y):0.#}" width="{at.Size(a.Width):0.#}" height="{at.Size(a.Height):0.#}" {how}/>

        """);

    private static string Mm(long micrometres) => (micrometres / 1000.0).ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>Where a sheet stands in the drawing, and how large.</summary>
    private readonly record struct Frame(double Scale, double Left, double Top)
    {
        public double X(long micrometres) => Left + (micrometres * Scale);

        public double Y(long micrometres) => Top + (micrometres * Scale);

        public double Size(long micrometres) => micrometres * Scale;
    }
}
