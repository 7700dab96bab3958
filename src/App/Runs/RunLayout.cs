using System.Globalization;
using System.Text.Json;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Runs;

/// <summary>A run's layout as it is kept with it: where each print lies, and the cuts in order. Lengths in mm.</summary>
/// <param name="IsRoll">On a roll: one sheet, the length that is cut off.</param>
/// <param name="UsedPercent">Of the paper.</param>
/// <param name="Sheets">In their order.</param>
/// <param name="Least">Sheets, or mm of roll, that no layout of these prints can go under; 0 where it was not kept.</param>
/// <param name="IsBest">No layout takes less.</param>
/// <param name="Gutter">What the knife takes.</param>
/// <param name="Edges">What was kept free at the edges; none where it was not kept.</param>
public sealed record RunLayout(
    bool IsRoll, double UsedPercent, IReadOnlyList<RunLayout.OneSheet> Sheets, double Least = 0, bool IsBest = false, double Gutter = 4,
    RunLayout.Free? Edges = null)
{
    private const double PerMm = 1000;

    public int Prints => Sheets.Sum(s => s.Prints.Count);

    public int Cuts => Sheets.Sum(s => s.Cuts.Count);

    /// <summary>Sheets, or whole mm of roll.</summary>
    public long Needs => IsRoll ? (long)Math.Ceiling(Sheets.Sum(s => s.Height) - 1e-6) : Sheets.Count;

    /// <param name="nest">The layout that was found.</param>
    /// <param name="lines">The print lines, in the order of the layout's pieces.</param>
    /// <param name="held">Which of them stay where they are.</param>
    public static RunLayout Of(Nest nest, IReadOnlyList<PrintLine> lines, IReadOnlyList<HeldPiece>? held = null)
    {
        var area = nest.Sheets.Sum(s => (double)s.Width * s.Height);
        var used = nest.Sheets.SelectMany(s => s.Placements).Sum(p => (double)p.Place.Size);
        var hands = (held ?? []).ToList();
        var m = nest.Stock.Margins;
        return new(
            nest.Stock.IsRoll, Math.Round(100 * used / area, 1), [.. nest.Sheets.Select((s, i) => Sheet(nest.Stock, s, lines, p => IsHeld(hands, i, p)))],
            nest.Stock.IsRoll ? Mm(nest.Bound) : nest.Bound, nest.IsBest, nest.Stock.Gutter.Millimetres,
            new(m.Left.Millimetres, m.Right.Millimetres, m.Lead.Millimetres, m.Tail.Millimetres));
    }

    // On its own sheet if it is there, else on the sheet that took it; each is held once.
    private static bool IsHeld(List<HeldPiece> hands, int sheet, Placement placed)
    {
        var at = hands.FindIndex(h => h.Sheet == sheet && Is(h));
        at = at < 0 ? hands.FindIndex(Is) : at;
        if (at >= 0)
        {
            hands.RemoveAt(at);
        }

        return at >= 0;

        bool Is(HeldPiece h) => h.Piece == placed.Piece && h.X == placed.Place.X && h.Y == placed.Place.Y;
    }

    /// <summary>Minutes that a printer takes for it; 0 while nobody said how fast it is.</summary>
    public double Minutes(Printer printer) =>
        printer.SquareMetresPerHour > 0 ? Math.Round(60 * Sheets.Sum(s => s.Width * s.Height) / 1e6 / printer.SquareMetresPerHour, 1) : 0;

    public string ToJson() => JsonSerializer.Serialize(this);

    public static RunLayout Read(string json) => JsonSerializer.Deserialize<RunLayout>(json)!;

    /// <summary>Sheets that are laid and cut alike, drawn once; with their numbers from 1.</summary>
    public IReadOnlyList<Alike> Groups() =>
        [.. Sheets.Select((s, i) => (Sheet: s, Number: i + 1)).GroupBy(x => JsonSerializer.Serialize(x.Sheet))
            .Select(g => new Alike([.. g.Select(x => x.Number)], g.First().Sheet))];

    private static OneSheet Sheet(Stock stock, CutSheet sheet, IReadOnlyList<PrintLine> lines, Func<Placement, bool> isHeld) => new(
        Mm(sheet.Width), Mm(sheet.Height),
        [.. sheet.Placements.Select(p => new Print(lines[p.Piece].Order, lines[p.Piece].Line, lines[p.Piece].Title, At(p.Place), isHeld(p)))],
        [.. CutList.Of(stock, sheet).Select(Cut)],
        [.. sheet.Offcuts.Select(At)],
        [.. CutList.Offcuts(stock, sheet).Select(At)]);

    private static OneCut Cut(NumberedCut cut)
    {
        var (part, along) = (cut.Of.Place, cut.Direction is CutDirection.Along);
        var (x, y) = along ? (part.X + cut.Stop, part.Y) : (part.X, part.Y + cut.Stop);
        return new(cut.Number, cut.Of.Number, along, Mm(cut.Stop), Mm(cut.Knife), Mm(x), Mm(y), Mm(along ? part.Height : part.Width));
    }

    private static Place At(Area a) => new(Mm(a.X), Mm(a.Y), Mm(a.Width), Mm(a.Height));

    private static double Mm(long micrometres) => micrometres / PerMm;

    /// <param name="Offcuts">What is free for a print: within the margins and clear of its neighbours.</param>
    /// <param name="Left">What is left over when all is cut; none where it was not kept, and then it is what was free.</param>
    public sealed record OneSheet(
        double Width, double Height, IReadOnlyList<Print> Prints, IReadOnlyList<OneCut> Cuts, IReadOnlyList<Place> Offcuts, IReadOnlyList<Place>? Left = null)
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

    /// <summary>What is kept free at each edge.</summary>
    public readonly record struct Free(double Left, double Right, double Lead, double Tail);

    /// <summary>A rectangle from the left and the leading edge.</summary>
    public readonly record struct Place(double X, double Y, double Width, double Height);

    /// <summary>One copy of a print line where it lies.</summary>
    /// <param name="Held">A person put it there, or keeps it there.</param>
    public sealed record Print(int Order, int Line, string Title, Place At, bool Held = false)
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
