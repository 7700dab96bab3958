using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>Lays pieces around those that a person holds in place, or says why what is held cannot be.</summary>
public static class AroundHeld
{
    /// <param name="pieces">All pieces, those held among them.</param>
    /// <param name="stock">The paper.</param>
    /// <param name="held">Copies that stay where they are.</param>
    /// <param name="seed">Of the search.</param>
    /// <param name="stop">As for <see cref="NestPacker.Pack"/>.</param>
    public static Outcome<Nest> Lay(IReadOnlyList<Piece> pieces, Stock stock, IReadOnlyList<HeldPiece> held, int seed, Func<long, bool> stop)
    {
        if (held.Count == 0)
        {
            return NestPacker.Pack(pieces, stock, seed, stop);
        }

        var left = pieces.Select((p, i) => p.Copies - held.Count(h => h.Piece == i)).ToArray();
        if (held.Any(h => h.Piece < 0 || h.Piece >= pieces.Count || h.Sheet < 0) || left.Any(n => n < 0))
        {
            throw new ArgumentException("More is held than there is.", nameof(held));
        }

        if (!Items.InReach(pieces, stock))
        {
            return new NestPacker.TooLong();
        }

        var placed = held.Select(h => (h.Sheet, Placed: At(pieces[h.Piece], AtEdge(h, stock)))).ToArray();
        if (placed.Select(p => Wrong(pieces, stock, p.Placed)).FirstOrDefault(w => w is not null) is { } wrong)
        {
            return wrong;
        }

        var cuts = new HeldCuts(stock.Gutter.Micrometres);
        var roots = new List<(int Sheet, long Height, HeldCuts.Node Node)>();
        foreach (var sheet in placed.GroupBy(p => stock.IsRoll ? 0 : p.Sheet).OrderBy(g => g.Key))
        {
            var here = sheet.Select(s => s.Placed).ToArray();
            if (TooNear(pieces, stock, here) is { } near)
            {
                return near;
            }

            var height = stock.IsRoll ? here.Max(p => p.Place.Bottom) - stock.Margins.Lead.Micrometres : stock.UsableHeight;
            var root = cuts.Part(new(stock.Margins.Left.Micrometres, stock.Margins.Lead.Micrometres, stock.UsableWidth, height), here, out var stuck);
            if (root is null)
            {
                return stuck.Count == 1
                    ? new OutOfLine(pieces[stuck[0].Piece].Name, stock.Gutter)
                    : new CannotBeCutApart([.. stuck.Select(s => pieces[s.Piece].Name).Distinct()]);
            }

            roots.Add((sheet.Key, height, root));
        }

        var filled = new FreeFill(pieces, stock.Gutter.Micrometres, cuts.Free, seed).Fill(left);
        return Finish(pieces, stock, roots, [.. left.Zip(filled, (l, f) => l - f)], seed, stop);
    }

    private static Outcome<Nest> Finish(
        IReadOnlyList<Piece> pieces, Stock stock, List<(int Sheet, long Height, HeldCuts.Node Node)> roots, int[] left, int seed, Func<long, bool> stop)
    {
        var rest = Enumerable.Range(0, pieces.Count).Where(i => left[i] > 0).ToArray();
        IReadOnlyList<CutSheet> more = [];
        if (rest.Length > 0)
        {
            var outcome = NestPacker.Pack([.. rest.Select(i => pieces[i] with { Copies = left[i] })], stock, seed, stop);
            if (!outcome.Granted)
            {
                return outcome.Refusal;
            }

            more = outcome.Value.Sheets;
        }

        var bound = NestPacker.Bound(pieces, stock);
        if (!stock.IsRoll)
        {
            // Sheets without held pieces come where they leave each held sheet its number.
            var sheets = more.Select(m => CutSheet.Of(stock, m.Height, Named(m.Tree, rest))).ToList();
            roots.ForEach(r => sheets.Insert(Math.Min(r.Sheet, sheets.Count), CutSheet.Of(stock, r.Height + stock.Ends, r.Node.Tree())));
            return new Nest(stock, pieces, sheets, bound);
        }

        var (height, tree) = (roots[0].Height, roots[0].Node.Tree());
        if (more.Count > 0)
        {
            (height, tree) = (
                height + stock.Gutter.Micrometres + more[0].Height - stock.Ends,
                new CutTree.Cut(CutDirection.Across, height, tree, Named(more[0].Tree, rest)));
        }

        return new Nest(stock, pieces, [CutSheet.Of(stock, height + stock.Ends, tree)], bound);
    }

    /// <summary>The same cuts with the pieces named as in the whole list.</summary>
    private static CutTree Named(CutTree tree, int[] names) => tree switch
    {
        CutTree.Good good => good with { Piece = names[good.Piece] },
        CutTree.Cut cut => cut with { Near = Named(cut.Near, names), Far = Named(cut.Far, names) },
        _ => tree,
    };

    /// <summary>The same piece at the left or leading edge, if it lies nearer to it than the knife takes.</summary>
    public static HeldPiece AtEdge(HeldPiece held, Stock stock)
    {
        return held with { X = Snapped(held.X, stock.Margins.Left), Y = Snapped(held.Y, stock.Margins.Lead) };

        long Snapped(long place, Length edge) =>
            place > edge.Micrometres && place - edge.Micrometres <= stock.Gutter.Micrometres ? edge.Micrometres : place;
    }

    private static Placement At(Piece piece, HeldPiece held)
    {
        var (w, h) = held.Turned ? (piece.Height, piece.Width) : (piece.Width, piece.Height);
        return new(held.Piece, new(held.X, held.Y, w.Micrometres, h.Micrometres), held.Turned && piece.Width != piece.Height);
    }

    private static Refusal? Wrong(IReadOnlyList<Piece> pieces, Stock stock, Placement placed)
    {
        var (piece, at, m) = (pieces[placed.Piece], placed.Place, stock.Margins);
        if (placed.Turned && !piece.MayTurn)
        {
            return new MayNotBeTurned(piece.Name);
        }

        var over = new[]
        {
            (Side: "left", By: m.Left.Micrometres - at.X),
            (Side: "right", By: at.Right - (stock.Width.Micrometres - m.Right.Micrometres)),
            (Side: "leading", By: m.Lead.Micrometres - at.Y),
            (Side: "tail", By: stock.Height is { } high ? at.Bottom - (high.Micrometres - m.Tail.Micrometres) : 0),
        }.MaxBy(o => o.By);
        return over.By > 0 ? new OverTheEdge(piece.Name, over.Side, Length.FromMicrometres(over.By)) : null;
    }

    private static TooNearTogether? TooNear(IReadOnlyList<Piece> pieces, Stock stock, Placement[] here)
    {
        var gutter = stock.Gutter.Micrometres;
        for (var i = 0; i < here.Length; i++)
        {
            for (var j = i + 1; j < here.Length; j++)
            {
                var (a, b) = (here[i].Place, here[j].Place);
                if (a.X < b.Right + gutter && b.X < a.Right + gutter && a.Y < b.Bottom + gutter && b.Y < a.Bottom + gutter)
                {
                    return new(pieces[here[i].Piece].Name, pieces[here[j].Piece].Name, stock.Gutter);
                }
            }
        }

        return null;
    }

    public sealed record MayNotBeTurned(string Piece)
        : Refusal($"{Piece} may not be turned: its picture or the grain of the paper has a direction. Nothing was changed.");

    public sealed record OverTheEdge(string Piece, string Side, Length By)
        : Refusal($"There {Piece} would reach {By} beyond what can be printed at the {Side} edge. Nothing was changed.");

    public sealed record TooNearTogether(string One, string Other, Length Gutter)
        : Refusal($"There {(One == Other ? $"two of {One}" : $"{One} and {Other}")} would lie on each other, or nearer than the {Gutter} the knife takes. Nothing was changed.");

    public sealed record OutOfLine(string Piece, Length Gutter)
        : Refusal($"{Piece} would lie out of line with what is held beside it by less than the {Gutter} the knife takes, so it cannot be cut out. Nothing was changed. Put it in line.");

    public sealed record CannotBeCutApart(IReadOnlyList<string> Pieces)
        : Refusal($"A trimmer cuts from edge to edge, and no such cut parts {string.Join(", ", Pieces)} where they are held. Nothing was changed. Let one of them go, or put it in line with another.");
}
