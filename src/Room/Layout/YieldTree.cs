namespace Goodsheet.Room.Layout;

/// <summary>Reads the cuts of a best yield back out of its table: at each rectangle it looks for what gives its value.</summary>
internal sealed class YieldTree(BestYield table, long unit, long gutter)
{
    /// <param name="width">In units, gutter added.</param>
    /// <param name="height">In units, gutter added.</param>
    /// <param name="realWidth">In µm, as the part is on the trimmer.</param>
    /// <param name="realHeight">In µm.</param>
    public CutTree Build(int width, int height, long realWidth, long realHeight)
    {
        var value = width <= 0 || height <= 0 ? 0 : table.At(width, height);
        if (value == 0)
        {
            return CutTree.Offcut.One;
        }

        foreach (var piece in table.Pieces)
        {
            if (piece.Value == value && piece.Width <= width && piece.Height <= height)
            {
                return Alone(piece, realWidth, realHeight);
            }
        }

        // A side that gives nothing may be narrower than the knife, so the near side must give something.
        foreach (var x in table.Widths)
        {
            if (x < width && table.At(x, height) is > 0 and var near && near + table.At(width - x, height) == value)
            {
                var at = (x * unit) - gutter;
                return new CutTree.Cut(
                    CutDirection.Along, at, Build(x, height, at, realHeight), Build(width - x, height, realWidth - at - gutter, realHeight));
            }
        }

        for (var y = 1; y < height; y++)
        {
            if (table.At(width, y) is > 0 and var near && near + table.At(width, height - y) == value)
            {
                var at = (y * unit) - gutter;
                return new CutTree.Cut(
                    CutDirection.Across, at, Build(width, y, realWidth, at), Build(width, height - y, realWidth, realHeight - at - gutter));
            }
        }

        throw new InvalidOperationException("The table holds a value that nothing in it gives.");
    }

    private CutTree Alone(BestYield.Lying piece, long realWidth, long realHeight)
    {
        var (w, h) = ((piece.Width * unit) - gutter, (piece.Height * unit) - gutter);
        CutTree tree = new CutTree.Good(piece.Piece, piece.Turned);
        tree = h == realHeight ? tree : new CutTree.Cut(CutDirection.Across, h, tree, CutTree.Offcut.One);
        return w == realWidth ? tree : new CutTree.Cut(CutDirection.Along, w, tree, CutTree.Offcut.One);
    }
}
