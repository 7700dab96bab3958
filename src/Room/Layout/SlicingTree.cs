namespace Goodsheet.Room.Layout;

/// <summary>The layout while it is being searched: per bin a tree of rows and stacks, each as small as its content.</summary>
/// <remarks>
/// Nodes are numbers: leaf i is item i, the others are rows (content side by side) and stacks (one above the other), which
/// alternate. Slack is not a node: each node knows the most it may grow to while all others stay as small as they are,
/// so an item goes wherever its node can take it. That makes slack anywhere in a row usable as one piece.
/// Sizes hold the gutter and are whole units of the finest common measure.
/// </remarks>
internal sealed partial class SlicingTree
{
    public const int None = -1;
    private const byte Row = 1;
    private const byte Stack = 2;

    private readonly int items, binWidth;
    private readonly int[] parent, first, next, prev, bin, top, free, w, h, mostW, mostH, takesW, takesH;
    private readonly byte[] kind, ways;
    private readonly bool[] stale, placed;
    private int binHeight, freeCount;

    public SlicingTree(int items, int bins, int binWidth, int binHeight)
    {
        (this.items, this.binWidth, this.binHeight) = (items, binWidth, binHeight);
        var nodes = ((2 * items) + Lanes - 1) / Lanes * Lanes; // whole lanes, so that a scan has no rest
        (parent, first, next, prev, bin) = (new int[nodes], new int[nodes], new int[nodes], new int[nodes], new int[nodes]);
        (kind, ways) = (new byte[nodes], new byte[nodes]);
        (w, h, mostW, mostH) = (new int[nodes], new int[nodes], new int[nodes], new int[nodes]);
        (takesW, takesH) = (new int[nodes], new int[nodes]);
        Array.Fill(takesW, -1);
        Array.Fill(bin, None);
        (top, stale, placed) = (new int[bins], new bool[bins], new bool[items]);
        Array.Fill(top, None);
        Bins = bins;
        free = [.. Enumerable.Range(items, items)];
        freeCount = items;
    }

    /// <summary>How many of the bins may be used.</summary>
    public int Bins { get; set; }

    /// <summary>Of every bin. What stands in them may be higher after it was lowered: see <see cref="TopHeight"/>.</summary>
    public int BinHeight
    {
        get => binHeight;
        set
        {
            binHeight = value;
            Array.Fill(stale, true);
        }
    }

    public bool IsPlaced(int item) => placed[item];

    public int Top(int inBin) => top[inBin];

    public int TopHeight(int inBin) => top[inBin] == None ? 0 : h[top[inBin]];

    public bool IsLeaf(int node) => node < items;

    public bool IsRow(int node) => kind[node] == Row;

    public int Width(int node) => w[node];

    public int Height(int node) => h[node];

    public int Parent(int node) => parent[node];

    public int BinOf(int node)
    {
        while (parent[node] != None)
        {
            node = parent[node];
        }

        return bin[node];
    }

    public IEnumerable<int> Children(int node)
    {
        for (var c = first[node]; c != None; c = next[c])
        {
            yield return c;
        }
    }

    public SlicingTree Twin()
    {
        var twin = new SlicingTree(items, top.Length, binWidth, binHeight);
        twin.CopyFrom(this);
        return twin;
    }

    public void CopyFrom(SlicingTree other)
    {
        Array.Copy(other.parent, parent, parent.Length);
        Array.Copy(other.first, first, first.Length);
        Array.Copy(other.next, next, next.Length);
        Array.Copy(other.prev, prev, prev.Length);
        Array.Copy(other.bin, bin, bin.Length);
        Array.Copy(other.top, top, top.Length);
        Array.Copy(other.free, free, free.Length);
        Array.Copy(other.kind, kind, kind.Length);
        Array.Copy(other.ways, ways, ways.Length);
        Array.Copy(other.w, w, w.Length);
        Array.Copy(other.h, h, h.Length);
        Array.Copy(other.mostW, mostW, mostW.Length);
        Array.Copy(other.mostH, mostH, mostH.Length);
        Array.Copy(other.takesW, takesW, takesW.Length);
        Array.Copy(other.takesH, takesH, takesH.Length);
        Array.Copy(other.stale, stale, stale.Length);
        Array.Copy(other.placed, placed, placed.Length);
        (binHeight, freeCount, Bins) = (other.binHeight, other.freeCount, other.Bins);
    }

    /// <summary>A place for an item where it leaves the least unusable; <see cref="None"/> as node if it fits nowhere.</summary>
    /// <param name="skip">One in so many better places is passed over, so that the search does not repeat itself.</param>
    public Spot Find(int width, int height, bool mayTurn, int skip, ref Chance chance)
    {
        var best = new Spot(None, 0, false, int.MaxValue, None);
        for (var b = 0; b < Bins; b++)
        {
            if (stale[b])
            {
                Measure(b);
            }
        }

        Scan(width, height, false, skip, ref best, ref chance);
        if (mayTurn && width != height)
        {
            Scan(height, width, true, skip, ref best, ref chance);
        }

        if (best.Node == None && Array.IndexOf(top, None, 0, Bins) is >= 0 and var empty)
        {
            var upright = width <= binWidth && height <= binHeight;
            if (upright || (mayTurn && height <= binWidth && width <= binHeight))
            {
                return new(None, 0, !upright, 0, empty);
            }
        }

        return best;
    }

    public void Put(int item, int width, int height, Spot spot)
    {
        (w[item], h[item]) = spot.Turned ? (height, width) : (width, height);
        if (spot.Node == None)
        {
            SetTop(spot.EmptyBin, item);
            return;
        }

        var node = spot.Node;
        if (node < items || kind[node] != spot.Way)
        {
            var (mostWide, mostHigh, way) = (mostW[node], mostH[node], ways[node]);
            node = Wrap(node, spot.Way);
            (mostW[node], mostH[node], ways[node]) = (mostWide, mostHigh, way);
        }

        Attach(node, item);
        MeasureWithin(Grow(node, item));
    }

    /// <summary>Takes a node out with all it holds; its items are added to the list.</summary>
    public void Remove(int node, List<int> taken)
    {
        var inBin = BinOf(node);
        stale[inBin] = true;
        var above = parent[node];
        if (above == None)
        {
            top[inBin] = None;
            bin[node] = None;
        }
        else
        {
            Detach(node);
            Straighten(above);
        }

        Dissolve(node, taken);
    }

    /// <summary>Puts a row of items under what a bin holds.</summary>
    public void AddLevel(int inBin, List<(int Item, int Width, int Height)> level)
    {
        var row = None;
        foreach (var (item, width, height) in level)
        {
            (w[item], h[item]) = (width, height);
            if (row == None)
            {
                row = item;
                PutUnder(inBin, item);
            }
            else
            {
                row = row < items ? Wrap(row, Row) : row;
                Attach(row, item);
                Resize(row);
            }
        }
    }

    /// <summary>Gives an item that is not yet placed the size it is going to lie in.</summary>
    public void Size(int item, int width, int height) => (w[item], h[item], kind[item]) = (width, height, 0);

    /// <summary>Joins two nodes that stand nowhere yet, side by side or one under the other; gives the row or stack.</summary>
    public int Pair(int a, int b, bool inRow)
    {
        var way = inRow ? Row : Stack;
        var both = a;
        if (kind[a] != way)
        {
            both = free[--freeCount];
            (kind[both], first[both]) = (way, None);
            Attach(both, a);
        }

        (w[both], h[both]) = inRow ? (w[a] + w[b], Math.Max(h[a], h[b])) : (Math.Max(w[a], w[b]), h[a] + h[b]);
        if (kind[b] != way)
        {
            Attach(both, b);
            return both;
        }

        for (var c = first[b]; c != None;)
        {
            var after = next[c];
            Attach(both, c);
            c = after;
        }

        Release(b);
        return both;
    }

    /// <summary>Exchanges two bins, so that the last can be given up.</summary>
    public void SwapBins(int a, int b)
    {
        (top[a], top[b]) = (top[b], top[a]);
        foreach (var i in (int[])[a, b])
        {
            stale[i] = true;
            if (top[i] != None)
            {
                bin[top[i]] = i;
            }
        }
    }
}
