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
    private readonly Node[] nodes;
    private readonly int[] top, free;
    private readonly int[] takesW, takesH, edgeW, edgeH; // what a node has room for stands apart, to be looked through many at a time
    private readonly int[] someW, someH; // per row or stack no less than what some, but not all, of what it holds have room for together
    private readonly bool[] stale;
    private int binHeight, freeCount;

    public SlicingTree(int items, int bins, int binWidth, int binHeight)
    {
        (this.items, this.binWidth, this.binHeight) = (items, binWidth, binHeight);
        var many = ((2 * items) + Lanes - 1) / Lanes * Lanes; // whole lanes, so that a scan has no rest
        nodes = new Node[many];
        Array.Fill(nodes, new Node { Bin = None, Changed = true });
        (takesW, takesH, edgeW, edgeH) = (new int[many], new int[many], new int[many], new int[many]);
        Array.Fill(takesW, -1);
        var joints = (items + Lanes - 1) / Lanes * Lanes;
        (someW, someH) = (new int[joints], new int[joints]);
        Array.Fill(someW, -1);
        (top, stale) = (new int[bins], new bool[bins]);
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

    public bool IsPlaced(int item) => nodes[item].Placed;

    public int Top(int inBin) => top[inBin];

    public int TopHeight(int inBin) => top[inBin] == None ? 0 : nodes[top[inBin]].H;

    public bool IsLeaf(int node) => node < items;

    /// <summary>Whether a node is a row or stack that stands in the layout.</summary>
    public bool IsJoint(int node) => node >= items && nodes[node].Kind != 0;

    /// <summary>A node that stands in a row or stack, or deeper in it.</summary>
    public int AnyIn(int joint, ref Chance chance)
    {
        while (true)
        {
            var (found, many) = (None, 0);
            for (var c = nodes[joint].First; c != None; c = nodes[c].Next)
            {
                found = chance.OneIn(++many) ? c : found;
            }

            if (found < items || chance.OneIn(2))
            {
                return found;
            }

            joint = found;
        }
    }

    public bool IsRow(int node) => nodes[node].Kind == Row;

    public int Width(int node) => nodes[node].W;

    public int Height(int node) => nodes[node].H;

    public int Parent(int node) => nodes[node].Parent;

    public int BinOf(int node)
    {
        while (nodes[node].Parent != None)
        {
            node = nodes[node].Parent;
        }

        return nodes[node].Bin;
    }

    public IEnumerable<int> Children(int node)
    {
        for (var c = nodes[node].First; c != None; c = nodes[c].Next)
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
        Array.Copy(other.nodes, nodes, nodes.Length);
        Array.Copy(other.takesW, takesW, takesW.Length);
        Array.Copy(other.takesH, takesH, takesH.Length);
        Array.Copy(other.edgeW, edgeW, edgeW.Length);
        Array.Copy(other.edgeH, edgeH, edgeH.Length);
        Array.Copy(other.someW, someW, someW.Length);
        Array.Copy(other.someH, someH, someH.Length);
        Array.Copy(other.free, free, free.Length);
        Array.Copy(other.top, top, top.Length);
        Array.Copy(other.stale, stale, stale.Length);
        (binHeight, freeCount, Bins) = (other.binHeight, other.freeCount, other.Bins);
    }

    /// <summary>A place for an item where it leaves the least unusable; <see cref="None"/> as node if it fits nowhere.</summary>
    /// <param name="skip">One in so many better places is passed over, so that the search does not repeat itself.</param>
    public Spot Find(int width, int height, bool mayTurn, int skip, ref Chance chance)
    {
        var best = new Spot(None, 0, false, int.MaxValue, None);
        MeasureStale();
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
        (nodes[item].W, nodes[item].H) = spot.Turned ? (height, width) : (width, height);
        if (spot.Node == None)
        {
            SetTop(spot.EmptyBin, item);
            return;
        }

        var node = spot.Node;
        if (node < items || nodes[node].Kind != spot.Way)
        {
            var (mostWide, mostHigh, way) = (nodes[node].MostW, nodes[node].MostH, nodes[node].Ways);
            node = Wrap(node, spot.Way);
            (nodes[node].MostW, nodes[node].MostH, nodes[node].Ways) = (mostWide, mostHigh, way);
        }

        Attach(node, item);
        MeasureWithin(Grow(node, item));
    }

    /// <summary>Takes a node out with all it holds; its items are added to the list.</summary>
    public void Remove(int node, List<int> taken)
    {
        var inBin = BinOf(node);
        stale[inBin] = true;
        var above = nodes[node].Parent;
        if (above == None)
        {
            top[inBin] = None;
            nodes[node].Bin = None;
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
            (nodes[item].W, nodes[item].H) = (width, height);
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
    public void Size(int item, int width, int height) => (nodes[item].W, nodes[item].H, nodes[item].Kind) = (width, height, 0);

    /// <summary>Joins two nodes that stand nowhere yet, side by side or one under the other; gives the row or stack.</summary>
    public int Pair(int a, int b, bool inRow)
    {
        var way = inRow ? Row : Stack;
        var both = a;
        if (nodes[a].Kind != way)
        {
            both = free[--freeCount];
            (nodes[both].Kind, nodes[both].First) = (way, None);
            Attach(both, a);
        }

        (nodes[both].W, nodes[both].H) = inRow ? (nodes[a].W + nodes[b].W, Math.Max(nodes[a].H, nodes[b].H)) : (Math.Max(nodes[a].W, nodes[b].W), nodes[a].H + nodes[b].H);
        if (nodes[b].Kind != way)
        {
            Attach(both, b);
            return both;
        }

        for (var c = nodes[b].First; c != None;)
        {
            var after = nodes[c].Next;
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
                nodes[top[i]].Bin = i;
            }
        }
    }

    /// <summary>An item, a row or a stack, all of it together: most steps of the search look at the whole of a node.</summary>
    private struct Node
    {
        public int Parent, First, Next, Prev, Bin, W, H, MostW, MostH;
        public byte Kind, Ways;
        public bool Placed;

        /// <summary>It, or something in it, is not as it was when it was measured last; then all it stands in is changed, too.</summary>
        public bool Changed;
    }
}
