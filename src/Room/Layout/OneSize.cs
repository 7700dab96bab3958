using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>The common case of pieces that are all of one size, however many pictures they are: exact, so the bound is met.</summary>
internal static class OneSize
{
    /// <summary>The best layout, or none if the sizes differ or have too fine a common measure to be solved exactly.</summary>
    public static Nest? Pack(IReadOnlyList<Piece> pieces, Stock stock)
    {
        var one = pieces[0];
        if (pieces.Any(p => p.Width != one.Width || p.Height != one.Height || p.MayTurn != one.MayTurn))
        {
            return null;
        }

        var copies = pieces.Sum(p => p.Copies);
        var width = Length.FromMicrometres(stock.UsableWidth);
        var longest = stock.IsRoll ? OneRow(one, stock, copies) : Length.FromMicrometres(stock.UsableHeight);
        if (stock.IsRoll)
        {
            if (BestYield.Shortest(one, copies, width, longest, stock.Gutter).Value is not { } shortest)
            {
                return null;
            }

            longest = shortest.Length;
        }

        if (BestYield.Find([one], [1], width, longest, stock.Gutter).Value is not { } found)
        {
            return null;
        }

        var hand = new Queue<int>(pieces.SelectMany((p, i) => Enumerable.Repeat(i, p.Copies)));
        var sheets = new List<CutSheet>();
        var tidy = new TidyTree(pieces, stock.Gutter.Micrometres);
        while (hand.Count > 0)
        {
            var full = hand.Count >= found.Value;
            var tree = Deal(found.Tree, hand);
            sheets.Add(CutSheet.Of(stock, longest.Micrometres + stock.Ends, full ? tree : tidy.Of(tree, stock.UsableWidth, longest.Micrometres)));
        }

        return new(stock, pieces, sheets, stock.IsRoll ? sheets[0].Height : sheets.Count);
    }

    /// <summary>A length that is surely enough: one below the other.</summary>
    private static Length OneRow(Piece piece, Stock stock, int copies)
    {
        var upright = piece.Width.Micrometres <= stock.UsableWidth;
        var each = (upright ? piece.Height : piece.Width).Micrometres + stock.Gutter.Micrometres;
        var across = Math.Max(1, (stock.UsableWidth + stock.Gutter.Micrometres) / ((upright ? piece.Width : piece.Height).Micrometres + stock.Gutter.Micrometres));
        return Length.FromMicrometres((each * ((copies + across - 1) / across)) - stock.Gutter.Micrometres);
    }

    /// <summary>The same cuts with the next pieces in hand; where none is left, paper.</summary>
    private static CutTree Deal(CutTree tree, Queue<int> hand)
    {
        switch (tree)
        {
            case CutTree.Good good:
                return hand.TryDequeue(out var next) ? good with { Piece = next } : CutTree.Offcut.One;
            case CutTree.Cut cut:
                var (near, far) = (Deal(cut.Near, hand), Deal(cut.Far, hand));
                return near is CutTree.Offcut && far is CutTree.Offcut ? near : cut with { Near = near, Far = far };
            default:
                return tree;
        }
    }
}
