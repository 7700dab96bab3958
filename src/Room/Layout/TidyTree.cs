namespace Goodsheet.Room.Layout;

/// <summary>A cut tree without cuts that only part paper from paper: what is left beside and behind the pieces comes off in one piece each.</summary>
/// <remarks>A tree that was made for more pieces than there are has such cuts: every piece stays where it lies, and what is left over is larger.</remarks>
internal sealed class TidyTree(IReadOnlyList<Piece> pieces, long gutter)
{
    /// <param name="tree">Of the part.</param>
    /// <param name="width">Of the part, in µm.</param>
    /// <param name="height">Of the part, in µm.</param>
    public CutTree Of(CutTree tree, long width, long height)
    {
        var (w, h) = Reach(tree);
        if (w == 0)
        {
            return CutTree.Offcut.One;
        }

        var within = Within(tree, w, h);
        var alongFirst = (width - w) * (Int128)height >= (height - h) * (Int128)width; // the larger rest in one piece
        return alongFirst ? Along(w, width, Across(h, height, within)) : Across(h, height, Along(w, width, within));
    }

    // Of a part that is no larger than its pieces reach.
    private CutTree Within(CutTree tree, long w, long h)
    {
        if (tree is not CutTree.Cut cut)
        {
            return tree;
        }

        if (Reach(cut.Far).Width == 0)
        {
            return Within(cut.Near, w, h);
        }

        var along = cut.Direction is CutDirection.Along;
        var rest = (along ? w : h) - cut.At - gutter;
        return cut with { Near = along ? Of(cut.Near, cut.At, h) : Of(cut.Near, w, cut.At), Far = along ? Of(cut.Far, rest, h) : Of(cut.Far, w, rest) };
    }

    /// <summary>How far the pieces of a part reach from its near edges, in µm; nothing for paper alone.</summary>
    private (long Width, long Height) Reach(CutTree tree)
    {
        switch (tree)
        {
            case CutTree.Good good:
                var (w, h) = (pieces[good.Piece].Width.Micrometres, pieces[good.Piece].Height.Micrometres);
                return good.Turned ? (h, w) : (w, h);
            case CutTree.Cut cut:
                var (near, far) = (Reach(cut.Near), Reach(cut.Far));
                var beyond = far.Width == 0 ? 0 : cut.At + gutter;
                return cut.Direction is CutDirection.Along
                    ? (Math.Max(near.Width, far.Width + beyond), Math.Max(near.Height, far.Height))
                    : (Math.Max(near.Width, far.Width), Math.Max(near.Height, far.Height + beyond));
            default:
                return default;
        }
    }

    private static CutTree Along(long at, long width, CutTree near) => at == width ? near : new CutTree.Cut(CutDirection.Along, at, near, CutTree.Offcut.One);

    private static CutTree Across(long at, long height, CutTree near) => at == height ? near : new CutTree.Cut(CutDirection.Across, at, near, CutTree.Offcut.One);
}
