namespace Goodsheet.Room.Layout;

/// <summary>Turns rows and stacks into the cuts that part them, with real sizes: the gutter becomes the knife's.</summary>
internal sealed class TreeCutter(Items items, SlicingTree tree, IReadOnlyList<Piece> pieces, long gutter)
{
    public CutSheet Cut(Stock stock, int bin)
    {
        var used = Real(tree.TopHeight(bin));
        var height = stock.IsRoll ? used + stock.Ends : stock.Height!.Value.Micrometres;
        return CutSheet.Of(stock, height, Whole(tree.Top(bin), stock.UsableWidth, height - stock.Ends));
    }

    private long Real(long units) => (units * items.Unit) - gutter;

    private long Width(int node) => Real(tree.Width(node));

    private long Height(int node) => Real(tree.Height(node));

    /// <summary>Cuts a node's own rectangle out of the part it was given, the larger rest in one piece, then what is in it.</summary>
    private CutTree Whole(int node, long width, long height)
    {
        var (w, h) = (Width(node), Height(node));
        var alongFirst = (width - w) * (Int128)height >= (height - h) * (Int128)width;
        return alongFirst
            ? Along(w, width, Across(h, height, Within(node)))
            : Across(h, height, Along(w, width, Within(node)));
    }

    private CutTree Within(int node)
    {
        if (tree.IsLeaf(node))
        {
            var piece = items.Piece(node);
            return new CutTree.Good(piece, pieces[piece].Width.Micrometres != Width(node) || pieces[piece].Height.Micrometres != Height(node));
        }

        var row = tree.IsRow(node);
        var (w, h) = (Width(node), Height(node));
        CutTree? rest = null;
        foreach (var child in tree.Children(node))
        {
            var (at, part) = row ? (Width(child), Whole(child, Width(child), h)) : (Height(child), Whole(child, w, Height(child)));
            rest = rest is null ? part : new CutTree.Cut(row ? CutDirection.Along : CutDirection.Across, at, part, rest);
        }

        return rest!;
    }

    private static CutTree Along(long at, long width, CutTree near) =>
        at == width ? near : new CutTree.Cut(CutDirection.Along, at, near, CutTree.Offcut.One);

    private static CutTree Across(long at, long height, CutTree near) =>
        at == height ? near : new CutTree.Cut(CutDirection.Across, at, near, CutTree.Offcut.One);
}
