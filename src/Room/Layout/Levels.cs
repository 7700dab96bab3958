namespace Goodsheet.Room.Layout;

/// <summary>The start: levels, highest first, each item in the first level with room (first fit decreasing height).</summary>
/// <remarks>Coffman, Garey, Johnson, Tarjan, SIAM J. Comput. 9(4), 1980 (from memory); levels then go into the first bin with room.</remarks>
internal static class Levels
{
    public static SlicingTree Build(Items items)
    {
        var levels = new List<Level>();
        var order = Enumerable.Range(0, items.Count).Select(i => (Item: i, Size: Lying(items, i)))
            .OrderByDescending(i => i.Size.Height).ThenByDescending(i => i.Size.Width);
        foreach (var (item, size) in order)
        {
            var level = levels.Find(l => l.Used + size.Width <= items.BinWidth);
            if (level is null)
            {
                levels.Add(level = new(size.Height));
            }

            level.Used += size.Width;
            level.Items.Add((item, size.Width, size.Height));
        }

        var bins = new List<(int Used, List<Level> Levels)>();
        foreach (var level in levels)
        {
            var at = bins.FindIndex(b => b.Used + level.Height <= items.BinHeight);
            if (at < 0)
            {
                (at, _) = (bins.Count, 0);
                bins.Add((0, []));
            }

            bins[at].Levels.Add(level);
            bins[at] = (bins[at].Used + level.Height, bins[at].Levels);
        }

        var tree = new SlicingTree(items.Count, bins.Count, items.BinWidth, items.BinHeight);
        for (var b = 0; b < bins.Count; b++)
        {
            foreach (var level in bins[b].Levels)
            {
                tree.AddLevel(b, level.Items);
            }
        }

        return tree;
    }

    /// <summary>The way an item lies in a level: flat where it may and fits, since low levels waste least.</summary>
    private static (int Width, int Height) Lying(Items items, int item)
    {
        var (w, h) = (items.Width(item), items.Height(item));
        var flat = w >= h;
        var turnedFits = h <= items.BinWidth && w <= items.BinHeight;
        var uprightFits = w <= items.BinWidth && h <= items.BinHeight;
        return items.MayTurn(item) && turnedFits && (!flat || !uprightFits) ? (h, w) : (w, h);
    }

    private sealed class Level(int height)
    {
        public int Height => height;

        public int Used { get; set; }

        public List<(int Item, int Width, int Height)> Items { get; } = [];
    }
}
