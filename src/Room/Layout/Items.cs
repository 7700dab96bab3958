namespace Goodsheet.Room.Layout;

/// <summary>Every copy of every piece as the search sees it: gutter added, in whole units of their finest common measure.</summary>
internal sealed class Items
{
    private readonly long[] width, height;
    private readonly bool[] mayTurn;
    private readonly int[] piece;

    public Items(IReadOnlyList<Piece> pieces, Stock stock)
    {
        var gutter = stock.Gutter.Micrometres;
        Unit = pieces.Aggregate(0L, (g, p) => Gcd(Gcd(g, p.Width.Micrometres + gutter), p.Height.Micrometres + gutter));
        var all = pieces.SelectMany((p, i) => Enumerable.Repeat((p, i), p.Copies)).ToArray();
        width = [.. all.Select(a => (a.p.Width.Micrometres + gutter) / Unit)];
        height = [.. all.Select(a => (a.p.Height.Micrometres + gutter) / Unit)];
        mayTurn = [.. all.Select(a => a.p.MayTurn)];
        piece = [.. all.Select(a => a.i)];
        IsStrip = stock.IsRoll;
        BinWidth = (stock.UsableWidth + gutter) / Unit;
        BinHeight = IsStrip ? long.MaxValue / 4 : (stock.UsableHeight + gutter) / Unit;
    }

    /// <summary>In µm. What a bin holds over a whole number of units no piece can use.</summary>
    public long Unit { get; }

    public int Count => width.Length;

    public bool IsStrip { get; }

    public long BinWidth { get; }

    public long BinHeight { get; }

    public long Width(int item) => width[item];

    public long Height(int item) => height[item];

    public bool MayTurn(int item) => mayTurn[item];

    public int Piece(int item) => piece[item];

    public double Area(int item) => (double)width[item] * height[item];

    /// <summary>Height of the strip in units, or bins, that no layout can go under: area, and the piece that needs most.</summary>
    public long Bound()
    {
        Int128 area = 0;
        long highest = 0;
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

    private static long Gcd(long a, long b) => b == 0 ? a : Gcd(b, a % b);
}
