using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>Lays pieces on a roll or on sheets, as tightly as the time it is given allows.</summary>
public static class NestPacker
{
    /// <summary>Copies of all pieces together: the search keeps its pace up to there.</summary>
    public const int MostCopies = 2_000;

    /// <param name="stop">Asked after each iteration with how many are done; true ends the search. The start alone is a
    /// full layout, so it may say so at once.</param>
    public static Outcome<Nest> Pack(IReadOnlyList<Piece> pieces, Stock stock, int seed, Func<long, bool> stop)
    {
        if (Refused(pieces, stock) is { } no)
        {
            return no;
        }

        if (OneSize.Pack(pieces, stock) is { } best)
        {
            return best;
        }

        if (!Items.InReach(pieces, stock))
        {
            return new TooLong();
        }

        var items = new Items(pieces, stock);
        var start = Levels.Build(items);
        var bound = items.Bound();
        var search = new RuinAndRecreate(items, start, seed);
        if (EveryWay.TurnsBefore(items) is { } turns)
        {
            search.Run(bound, turn => turn >= turns || stop(turn));
            if (search.Cost > bound && EveryWay.Search(items, (int)search.Cost - 1, more => stop(search.Turns + more)) is { Finished: true } every)
            {
                search.Take(every.Best ?? search.Best);
                bound = search.Cost;
            }
        }
        else
        {
            search.Run(bound, stop);
        }

        var gutter = stock.Gutter.Micrometres;
        var cutter = new TreeCutter(items, search.Best, pieces, gutter);
        var sheets = Enumerable.Range(0, search.Best.Bins).Select(b => cutter.Cut(stock, b)).ToArray();
        return new Nest(stock, pieces, sheets, stock.IsRoll ? (bound * items.Unit) - gutter + stock.Ends : bound);
    }

    /// <summary>Length of roll in µm, or sheets, that no layout of the pieces can go under: by area, and by what needs most.</summary>
    internal static long Bound(IReadOnlyList<Piece> pieces, Stock stock)
    {
        var items = new Items(pieces, stock);
        return stock.IsRoll ? (items.Bound() * items.Unit) - stock.Gutter.Micrometres + stock.Ends : items.Bound();
    }

    private static Refusal? Refused(IReadOnlyList<Piece> pieces, Stock stock)
    {
        var copies = pieces.Sum(p => (long)Math.Max(p.Copies, 0));
        if (copies is 0 or > MostCopies || pieces.Any(p => p.Copies < 1))
        {
            return new NotSoMany(copies);
        }

        if (pieces.FirstOrDefault(p => p.Width <= Length.Zero || p.Height <= Length.Zero) is { } flat)
        {
            return new NotASize(flat.Name);
        }

        if (stock.UsableWidth <= 0 || (!stock.IsRoll && stock.UsableHeight <= 0) || stock.Gutter < Length.Zero)
        {
            return new NothingLeft();
        }

        return pieces.FirstOrDefault(p => !Fits(p.Width, p.Height) && !(p.MayTurn && Fits(p.Height, p.Width))) is { } big
            ? new TooBig(big, stock)
            : null;

        bool Fits(Length w, Length h) =>
            w.Micrometres <= stock.UsableWidth && (stock.IsRoll || h.Micrometres <= stock.UsableHeight);
    }

    public sealed record NotSoMany(long Copies)
        : Refusal($"{Copies} pieces cannot be laid out at once: from 1 to {MostCopies} can, and at least one of each.");

    public sealed record TooLong() : Refusal("That is more paper than can be laid out at once. Lay out fewer pieces at a time, or give sizes in whole mm.");

    public sealed record NotASize(string Piece) : Refusal($"{Piece} has no size. Give its width and height.");

    public sealed record NothingLeft() : Refusal("The margins leave no paper between them.");

    public sealed record TooBig(Piece Piece, Stock Stock) : Refusal(
        $"{Piece.Name} ({Piece.Width} × {Piece.Height}) does not fit on {(Stock.IsRoll ? $"a roll {Stock.Width} wide" : $"a sheet {Stock.Width} × {Stock.Height}")} between its margins{(Piece.MayTurn ? "" : ", and may not be turned")}.");
}
