using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>Pieces laid on paper so that a trimmer can cut them out.</summary>
/// <param name="Sheets">Of a roll one: the length that is cut off.</param>
/// <param name="Bound">Length of roll in µm, or number of sheets, that no layout can go under.</param>
public sealed record Nest(Stock Stock, IReadOnlyList<Piece> Pieces, IReadOnlyList<CutSheet> Sheets, long Bound)
{
    /// <summary>What it costs in paper: length of roll in µm, or number of sheets.</summary>
    public long Cost => Stock.IsRoll ? Sheets.Sum(s => s.Height) : Sheets.Count;

    /// <summary>No layout can take less paper.</summary>
    public bool IsBest => Cost <= Bound;

    public Length RollUsed => Length.FromMicrometres(Stock.IsRoll ? Cost : 0);
}

/// <summary>One sheet, or one length of roll, with its cuts and what they give.</summary>
/// <param name="Width">In µm, margins included.</param>
/// <param name="Height">In µm, margins included.</param>
/// <param name="Tree">Of the part between the margins.</param>
public sealed record CutSheet(long Width, long Height, CutTree Tree, IReadOnlyList<Placement> Placements, IReadOnlyList<Area> Offcuts)
{
    /// <summary>Offcuts big enough to go back on the shelf.</summary>
    public IEnumerable<Area> Kept(Length leastSide) =>
        Offcuts.Where(o => Math.Min(o.Width, o.Height) >= leastSide.Micrometres);

    /// <summary>Walks a cut tree from its root and notes where each piece and offcut lies.</summary>
    public static CutSheet Of(Stock stock, long height, CutTree tree)
    {
        var (good, left) = (new List<Placement>(), new List<Area>());
        var gutter = stock.Gutter.Micrometres;
        var margins = stock.Margins;
        Walk(tree, new(margins.Left.Micrometres, margins.Lead.Micrometres, stock.UsableWidth, height - stock.Ends));
        return new(stock.Width.Micrometres, height, tree, good, left);

        void Walk(CutTree node, Area at)
        {
            switch (node)
            {
                case CutTree.Good piece:
                    good.Add(new(piece.Piece, at, piece.Turned));
                    break;
                case CutTree.Cut { Direction: CutDirection.Along } cut:
                    var right = Math.Max(0, at.Width - cut.At - gutter);
                    Walk(cut.Near, at with { Width = cut.At });
                    Walk(cut.Far, at with { X = at.Right - right, Width = right });
                    break;
                case CutTree.Cut cut:
                    var tail = Math.Max(0, at.Height - cut.At - gutter);
                    Walk(cut.Near, at with { Height = cut.At });
                    Walk(cut.Far, at with { Y = at.Bottom - tail, Height = tail });
                    break;
                case CutTree.Offcut when at is { Width: > 0, Height: > 0 }:
                    left.Add(at);
                    break;
            }
        }
    }
}
