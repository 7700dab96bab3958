using System.Globalization;
using System.Text.Json;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Runs;

/// <summary>A run's layout as it is kept with it: where each print lies, and the cuts in order. Lengths in mm.</summary>
public sealed record RunLayout(bool IsRoll, double UsedPercent, IReadOnlyList<RunLayout.OneSheet> Sheets)
{
    private const double PerMm = 1000;

    public int Prints => Sheets.Sum(s => s.Prints.Count);

    public int Cuts => Sheets.Sum(s => s.Cuts.Count);

    /// <param name="nest">The layout that was found.</param>
    /// <param name="lines">The print lines, in the order of the layout's pieces.</param>
    public static RunLayout Of(Nest nest, IReadOnlyList<PrintLine> lines)
    {
        var area = nest.Sheets.Sum(s => (double)s.Width * s.Height);
        var used = nest.Sheets.SelectMany(s => s.Placements).Sum(p => (double)p.Place.Size);
        return new(nest.Stock.IsRoll, Math.Round(100 * used / area, 1), [.. nest.Sheets.Select(s => Sheet(nest.Stock, s, lines))]);
    }

    public string ToJson() => JsonSerializer.Serialize(this);

    public static RunLayout Read(string json) => JsonSerializer.Deserialize<RunLayout>(json)!;

    /// <summary>Sheets that are laid and cut alike, drawn once; with their numbers from 1.</summary>
    public IReadOnlyList<Alike> Groups() =>
        [.. Sheets.Select((s, i) => (Sheet: s, Number: i + 1)).GroupBy(x => JsonSerializer.Serialize(x.Sheet))
            .Select(g => new Alike([.. g.Select(x => x.Number)], g.First().Sheet))];

    private static OneSheet Sheet(Stock stock, CutSheet sheet, IReadOnlyList<PrintLine> lines) => new(
        Mm(sheet.Width), Mm(sheet.Height),
        [.. sheet.Placements.Select(p => new Print(lines[p.Piece].Order, lines[p.Piece].Line, lines[p.Piece].Title, At(p.Place)))],
        [.. CutList.Of(stock, sheet).Select(Cut)],
        [.. sheet.Offcuts.Select(At)]);

    private static OneCut Cut(NumberedCut cut)
    {
        var (part, along) = (cut.Of.Place, cut.Direction is CutDirection.Along);
        var (x, y) = along ? (part.X + cut.Stop, part.Y) : (part.X, part.Y + cut.Stop);
        return new(cut.Number, cut.Of.Number, along, Mm(cut.Stop), Mm(cut.Knife), Mm(x), Mm(y), Mm(along ? part.Height : part.Width));
    }

    private static Place At(Area a) => new(Mm(a.X), Mm(a.Y), Mm(a.Width), Mm(a.Height));

    private static double Mm(long micrometres) => micrometres / PerMm;

    public sealed record OneSheet(
        double Width, double Height, IReadOnlyList<Print> Prints, IReadOnlyList<OneCut> Cuts, IReadOnlyList<Place> Offcuts)
    {
        /// <summary>Where the number of each cut stands in a drawing: before the cut, or farther along it where another number stands already.</summary>
        /// <param name="scale">Of the drawing, units a mm.</param>
        /// <param name="radius">Of a number's disc, in units.</param>
        /// <returns>Centres in units from the sheet's corner, in the order of the cuts.</returns>
        public IReadOnlyList<(int Number, double X, double Y)> NumbersAt(double scale, double radius)
        {
            var placed = new List<(int Number, double X, double Y)>();
            foreach (var cut in Cuts)
            {
                var (x, y) = cut.Along ? (cut.X * scale, (cut.Y * scale) - radius) : ((cut.X * scale) - radius, cut.Y * scale);
                var (first, end) = ((x, y), cut.Length * scale);
                for (var along = 0.0; along <= end && placed.Exists(p => double.Hypot(p.X - x, p.Y - y) < 2 * radius); along += radius)
                {
                    (x, y) = cut.Along ? (first.x, first.y + along) : (first.x + along, first.y);
                }

                placed.Add((cut.Number, x, y));
            }

            return placed;
        }
    }

    /// <summary>A rectangle from the left and the leading edge.</summary>
    public readonly record struct Place(double X, double Y, double Width, double Height);

    /// <summary>One copy of a print line where it lies.</summary>
    public sealed record Print(int Order, int Line, string Title, Place At)
    {
        public string Size => string.Create(CultureInfo.CurrentCulture, $"{At.Width:0.#} × {At.Height:0.#}");
    }

    /// <summary>One cut. Part 0 is the whole sheet; each cut parts one into two more.</summary>
    /// <param name="Along">Along the feed; otherwise across it.</param>
    /// <param name="Stop">From the near edge of the part on the trimmer.</param>
    /// <param name="Knife">Clearance to cut off the far part after it.</param>
    /// <param name="X">Where it begins.</param>
    /// <param name="Length">How far the knife goes.</param>
    public sealed record OneCut(int Number, int Part, bool Along, double Stop, double Knife, double X, double Y, double Length)
    {
        public string Words(bool isRoll) => string.Create(
            CultureInfo.CurrentCulture,
            $"{(Part == CutList.WholeSheet ? isRoll ? "the roll’s length" : "the whole sheet" : $"part {Part}")} {(Along ? "along" : "across")}, stop at {Stop:0.#} mm{(Knife > 0 ? $", then {Knife:0.#} mm off" : "")}");
    }

    public sealed record Alike(IReadOnlyList<int> Numbers, OneSheet Sheet)
    {
        /// <summary>"Sheet 3", "Sheets 1 to 12, alike", "Sheets 1, 4, alike".</summary>
        public string Name(bool isRoll) => (isRoll, Numbers) switch
        {
            (true, _) => "The roll",
            (_, [var one]) => $"Sheet {one}",
            (_, [var first, .., var last]) when last - first == Numbers.Count - 1 => $"Sheets {first} to {last}, alike",
            _ => $"Sheets {string.Join(", ", Numbers)}, alike",
        };
    }
}
