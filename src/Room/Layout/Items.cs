namespace Goodsheet.Room.Layout;

/// <summary>Every copy of every piece as the search sees it: gutter added, in whole units of their finest common measure.</summary>
/// <remarks>They stand in an order of their own, so that a list costs the same however it is shuffled.</remarks>
internal sealed class Items
{
    /// <summary>In units: what the search can reckon with, 536 m of a roll if sizes have to the micrometre no common measure.</summary>
    public const int Longest = 1 << 29;

    private readonly int[] width, height;
    private readonly bool[] mayTurn;
    private readonly int[] piece;

    public Items(IReadOnlyList<Piece> pieces, Stock stock)
    {
        var gutter = stock.Gutter.Micrometres;
        Unit = CommonMeasure(pieces, gutter);
        var all = pieces.Select((p, i) => (p, i)).OrderByDescending(a => a.p.Height).ThenByDescending(a => a.p.Width).ThenBy(a => a.p.MayTurn)
            .SelectMany(a => Enumerable.Repeat(a, a.p.Copies)).ToArray();
        width = [.. all.Select(a => InUnits(a.p.Width.Micrometres + gutter))];
        height = [.. all.Select(a => InUnits(a.p.Height.Micrometres + gutter))];
        mayTurn = [.. all.Select(a => a.p.MayTurn)];
        piece = [.. all.Select(a => a.i)];
        IsStrip = stock.IsRoll;
        BinWidth = InUnits(stock.UsableWidth + gutter);
        BinHeight = IsStrip ? Longest : InUnits(stock.UsableHeight + gutter);
    }

    /// <summary>In µm. What a bin holds over a whole number of units no piece can use.</summary>
    public long Unit { get; }

    public int Count => width.Length;

    public bool IsStrip { get; }

    public int BinWidth { get; }

    public int BinHeight { get; }

    public int Width(int item) => width[item];

    public int Height(int item) => height[item];

    public bool MayTurn(int item) => mayTurn[item];

    public int Piece(int item) => piece[item];

    public double Area(int item) => (double)width[item] * height[item];

    /// <summary>Height of the strip in units, or bins, that no layout can go under: area, and the piece that needs most.</summary>
    public long Bound()
    {
        Int128 area = 0;
        var highest = 0;
        for (var i = 0; i < Count; i++)
        {
            area += (Int128)width[i] * height[i];
            var turned = mayTurn[i] && height[i] <= BinWidth ? width[i] : height[i];
            highest = Math.Max(highest, width[i] <= BinWidth ? Math.Min(height[i], turned) : turned);
        }

        Int128 bin = IsStrip ? BinWidth : (Int128)BinWidth * BinHeight;
        var byArea = (long)((area + bin - 1) / bin);
        return IsStrip ? Math.Max(byArea, highest) : byArea;
    }

    /// <summary>Whether all copies in one row, and the paper, can be reckoned with.</summary>
    public static bool InReach(IReadOnlyList<Piece> pieces, Stock stock)
    {
        var gutter = stock.Gutter.Micrometres;
        var unit = CommonMeasure(pieces, gutter);
        var row = pieces.Aggregate((Int128)0, (sum, p) => sum + ((Int128)p.Copies * (Math.Max(p.Width.Micrometres, p.Height.Micrometres) + gutter)));
        var paper = Math.Max(stock.UsableWidth, stock.IsRoll ? 0 : stock.UsableHeight) + gutter;
        return row / unit <= Longest && paper / unit <= Longest;
    }

    private static long CommonMeasure(IReadOnlyList<Piece> pieces, long gutter) =>
        pieces.Aggregate(0L, (g, p) => Gcd(Gcd(g, p.Width.Micrometres + gutter), p.Height.Micrometres + gutter));

    private int InUnits(long micrometres) => (int)(micrometres / Unit);

    private static long Gcd(long a, long b) => b == 0 ? a : Gcd(b, a % b);
}
