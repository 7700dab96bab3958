using System.Numerics;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>The most value that can be cut from one sheet, any piece as often as it pays: exact, by dynamic programming.</summary>
/// <remarks>
/// Gilmore and Gomory, Oper. Res. 14(6), 1966, over the widths that sums of pieces can have (Herz, IBM J. Res. Dev.
/// 16(5), 1972); both cited from memory. Best[x, y] is the most value of a rectangle of the x-th such width and height y. Widths are few, heights
/// are whole units, so that the inner loops run over neighbours in memory and many at a time.
/// </remarks>
public sealed class BestYield
{
    /// <summary>Widths times heights: a quarter of a gigabyte of table, and seconds of work.</summary>
    public const long MostCells = 60_000_000;

    /// <summary>Units of the larger side; the work grows with its square.</summary>
    public const int MostUnits = 24_000;

    /// <summary>Sums of two cells to be compared, about twice what the largest published instance (gcut13, turned) needs.</summary>
    private const double MostWork = 1e11;

    /// <summary>Heights handled at once, so that their part of the table stays in the processor's second cache.</summary>
    private const int Tile = 128;

    private readonly int[] widths;
    private readonly int[] widthAt;
    private readonly int height, stride;
    private readonly Lying[] lying;
    private readonly int[] best;

    private BestYield(int[] widths, int width, int height, Lying[] lying)
    {
        (this.widths, this.height, this.lying) = (widths, height, lying);
        stride = (height / Tile * Tile) + Tile;
        best = new int[(long)widths.Length * stride];
        widthAt = new int[width + 1];
        for (int x = 0, at = 0; x <= width; x++)
        {
            at = at + 1 < widths.Length && widths[at + 1] <= x ? at + 1 : at;
            widthAt[x] = at;
        }
    }

    /// <param name="values">Of each piece, one or more; all 1 counts pieces.</param>
    public static Outcome<Yield> Find(IReadOnlyList<Piece> pieces, IReadOnlyList<int> values, Length sheetWidth, Length sheetHeight, Length gutter)
    {
        var scale = Scale.Of(pieces, gutter);
        var (width, height) = (scale.Units(sheetWidth), scale.Units(sheetHeight));
        var made = Make(pieces, values, scale, width, height);
        if (made.Value is not { } table)
        {
            return made.Refusal!;
        }

        var tree = new YieldTree(table, scale.Unit, scale.Gutter).Build((int)width, (int)height, sheetWidth.Micrometres, sheetHeight.Micrometres);
        return new Yield(table.At((int)width, (int)height), tree);
    }

    /// <summary>The shortest length of a roll that gives so many of a piece.</summary>
    /// <param name="enough">A length that is known to give them.</param>
    internal static Outcome<LengthText.Stated> Shortest(Piece piece, int copies, Length rollWidth, Length enough, Length gutter)
    {
        var scale = Scale.Of([piece], gutter);
        var (width, height) = (scale.Units(rollWidth), scale.Units(enough));
        var made = Make([piece], [1], scale, width, height);
        if (made.Value is not { } table)
        {
            return made.Refusal!;
        }

        var units = Enumerable.Range(1, (int)height).First(y => table.At((int)width, y) >= copies);
        return new LengthText.Stated(Length.FromMicrometres((units * scale.Unit) - scale.Gutter));
    }

    private static Outcome<BestYield> Make(IReadOnlyList<Piece> pieces, IReadOnlyList<int> values, Scale scale, long width, long height)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(values.Min(), 1);
        if (Math.Max(width, height) > MostUnits)
        {
            return new TooFine();
        }

        var lying = Directions(pieces, values, scale).Where(l => l.Width <= width && l.Height <= height).ToArray();
        if (lying.Length > 0)
        {
            var most = lying.Max(l => (double)l.Value / (l.Width * l.Height)) * width * height;
            ArgumentOutOfRangeException.ThrowIfGreaterThan(most, int.MaxValue, nameof(values));
        }

        var widths = Sums([.. lying.Select(l => l.Width)], (int)width);
        if (widths.Length * (height + Tile) > MostCells || (double)widths.Length * height * (widths.Length + height) > MostWork)
        {
            return new TooFine();
        }

        var table = new BestYield(widths, (int)width, (int)height, lying);
        table.Fill();
        return table;
    }

    internal IReadOnlyList<Lying> Pieces => lying;

    internal IReadOnlyList<int> Widths => widths;

    internal int At(int width, int high) => best[(widthAt[width] * stride) + high];

    private static IEnumerable<Lying> Directions(IReadOnlyList<Piece> pieces, IReadOnlyList<int> values, Scale scale)
    {
        for (var i = 0; i < pieces.Count; i++)
        {
            var (w, h) = (scale.Units(pieces[i].Width), scale.Units(pieces[i].Height));
            yield return new(i, w, h, values[i], false);
            if (pieces[i].MayTurn && w != h)
            {
                yield return new(i, h, w, values[i], true);
            }
        }
    }

    /// <summary>Zero and all sums of widths up to the limit.</summary>
    private static int[] Sums(long[] sizes, int limit)
    {
        var reached = new bool[limit + 1];
        reached[0] = true;
        foreach (var size in sizes)
        {
            for (var x = (int)size; x <= limit; x++)
            {
                reached[x] |= reached[x - size];
            }
        }

        return [.. Enumerable.Range(0, limit + 1).Where(x => reached[x])];
    }

    private void Fill()
    {
        for (var from = 0; from <= height; from += Tile)
        {
            for (var x = 1; x < widths.Length; x++)
            {
                FillTile(x, from);
            }
        }
    }

    private void FillTile(int x, int from)
    {
        unchecked
        {
            var row = best.AsSpan(x * stride, stride);
            var tile = row.Slice(from, Tile);
            Raise(tile, best.AsSpan(((x - 1) * stride) + from, Tile));
            foreach (var piece in lying)
            {
                if (piece.Width <= widths[x] && piece.Height >= from && piece.Height < from + Tile)
                {
                    ref var cell = ref row[(int)piece.Height];
                    cell = Math.Max(cell, piece.Value);
                }
            }

            for (var i = 1; widths[i] * 2 <= widths[x]; i++)
            {
                var other = widthAt[widths[x] - widths[i]];
                RaiseBySum(tile, best.AsSpan((i * stride) + from, Tile), best.AsSpan((other * stride) + from, Tile));
            }

            var end = Math.Min(from + Tile - 1, height);
            for (var y = Math.Max(from, 1); y <= end; y++)
            {
                row[y] = Math.Max(row[y], row[y - 1]);
                if (row[y] > row[y - 1])
                {
                    Push(row, y, Math.Min(y, height - y));
                }
            }
        }
    }

    /// <summary>What stands on a rectangle y high can stand under any that is no higher.</summary>
    private static void Push(Span<int> row, int y, int most)
    {
        unchecked
        {
            var step = Vector<int>.Count;
            var under = row[y];
            var add = new Vector<int>(under);
            var j = 1;
            for (; j + step - 1 <= most; j += step)
            {
                var target = row.Slice(y + j, step);
                Vector.Max(new Vector<int>(target), new Vector<int>(row.Slice(j, step)) + add).CopyTo(target);
            }

            for (; j <= most; j++)
            {
                row[y + j] = Math.Max(row[y + j], row[j] + under);
            }
        }
    }

    private static void Raise(Span<int> tile, ReadOnlySpan<int> least)
    {
        for (var k = 0; k < Tile; k += Vector<int>.Count)
        {
            Vector.Max(new Vector<int>(tile[k..]), new Vector<int>(least[k..])).CopyTo(tile[k..]);
        }
    }

    private static void RaiseBySum(Span<int> tile, ReadOnlySpan<int> left, ReadOnlySpan<int> right)
    {
        unchecked
        {
            for (var k = 0; k < Tile; k += Vector<int>.Count)
            {
                var sum = new Vector<int>(left[k..]) + new Vector<int>(right[k..]);
                Vector.Max(new Vector<int>(tile[k..]), sum).CopyTo(tile[k..]);
            }
        }
    }

    /// <summary>The finest common measure of pieces with their gutter, and lengths in it.</summary>
    private readonly record struct Scale(long Unit, long Gutter)
    {
        public static Scale Of(IReadOnlyList<Piece> pieces, Length gutter)
        {
            var clear = gutter.Micrometres;
            return new(pieces.Aggregate(0L, (g, p) => Gcd(Gcd(g, p.Width.Micrometres + clear), p.Height.Micrometres + clear)), clear);
        }

        public long Units(Length length) => (length.Micrometres + Gutter) / Unit;

        private static long Gcd(long a, long b) => b == 0 ? a : Gcd(b, a % b);
    }

    internal readonly record struct Lying(int Piece, long Width, long Height, int Value, bool Turned);

    public sealed record TooFine() : Refusal(
        "These sizes have too fine a common measure to be solved exactly on so large a sheet. Round them to whole millimetres, or take a smaller sheet.");
}

/// <summary>The most that one sheet gives, and how it is cut.</summary>
public sealed record Yield(int Value, CutTree Tree);
