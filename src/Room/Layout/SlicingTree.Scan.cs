using System.Numerics;
using System.Runtime.CompilerServices;

namespace Goodsheet.Room.Layout;

/// <summary>Where an item may go: beside (row) or under (stack) what a node holds, or alone in an empty bin.</summary>
internal readonly record struct Spot(int Node, byte Way, bool Turned, int Waste, int EmptyBin)
{
    public bool Fits => Node != SlicingTree.None || EmptyBin != SlicingTree.None;
}

/// <content>The search for places, and the upkeep of the tree.</content>
internal sealed partial class SlicingTree
{
    private const int NoEdge = 2 * Items.Longest - 1; // further from any item than any other
    private static readonly int Lanes = Vector<int>.Count;

    /// <summary>Looks for places among all nodes, many at a time: few have room in both directions.</summary>
    private void Scan(int iw, int ih, bool turned, int skip, ref Spot best, ref Chance chance)
    {
        unchecked
        {
            for (var b = 0; b < Bins && best.Waste > 0; b++)
            {
                // Only what fills a bin alone may be joined either way: under it here, beside it with all others.
                var node = top[b];
                if (node != None && binHeight - nodes[node].H >= ih && binWidth >= iw)
                {
                    Offer(node, Stack, Misfit(binHeight - nodes[node].H - ih, binWidth - iw, nodes[node].W - iw), turned, skip, ref best, ref chance);
                }
            }

            var (leastW, leastH) = (new Vector<int>(iw), new Vector<int>(ih));
            for (var lane = 0; lane < takesW.Length && best.Waste > 0; lane += Lanes)
            {
                var (freeW, freeH) = (new Vector<int>(takesW, lane) - leastW, new Vector<int>(takesH, lane) - leastH);
                var fits = Vector.GreaterThanOrEqual(freeW | freeH, Vector<int>.Zero);
                if (fits == Vector<int>.Zero)
                {
                    continue;
                }

                var step = Vector.Min(Vector.Abs(new Vector<int>(edgeW, lane) - leastW), Vector.Abs(new Vector<int>(edgeH, lane) - leastH));
                var waste = Vector.Min(Vector.Min(freeW, freeH), step);
                var better = fits & Vector.LessThan(waste, new Vector<int>(best.Waste));
                for (var c = 0; better != Vector<int>.Zero && c < Lanes; c++)
                {
                    if (better[c] != 0)
                    {
                        Offer(lane + c, nodes[lane + c].Ways, waste[c], turned, skip, ref best, ref chance);
                    }
                }
            }
        }
    }

    private static void Offer(int node, byte way, int waste, bool turned, int skip, ref Spot best, ref Chance chance)
    {
        if (waste < best.Waste && !(skip > 0 && chance.OneIn(skip)))
        {
            best = new(node, way, turned, waste, None);
        }
    }

    /// <summary>How badly an item fits: the least of what it leaves beside itself, of what its node could still grow,
    /// and of the step between it and what is there. One close fit is enough to be good.</summary>
    private static int Misfit(int along, int across, int step) => Math.Min(Math.Min(along, across), Math.Abs(step));

    private void MeasureStale()
    {
        for (var b = 0; b < Bins; b++)
        {
            if (stale[b])
            {
                Measure(b);
            }
        }
    }

    /// <summary>Tells every node of a bin the most it may grow to, from the bin down.</summary>
    private void Measure(int inBin)
    {
        stale[inBin] = false;
        var node = top[inBin];
        if (node == None)
        {
            return;
        }

        (nodes[node].MostW, nodes[node].MostH, nodes[node].Ways) = (binWidth, binHeight, Row);
        MeasureWithin(node);
    }

    private void MeasureWithin(int node)
    {
        unchecked
        {
            ref var n = ref nodes[node];
            TellRoom(node, ref n);
            if (node < items)
            {
                return;
            }

            var row = n.Kind == Row;
            var ways = row ? Stack : Row;
            var (mostW, mostH, slackW, slackH) = (n.MostW, n.MostH, n.MostW - n.W, n.MostH - n.H);
            var (many, least, second, largest, beside) = (0, int.MaxValue, int.MaxValue, -1, 0);
            for (var c = n.First; c != None;)
            {
                ref var child = ref nodes[c];
                var (along, across) = row ? (child.W, child.H) : (child.H, child.W);
                (least, second) = across < least ? (across, least) : (least, Math.Min(across, second));
                (largest, beside) = across > largest ? (across, along) : (largest, beside);
                many++;
                var (childW, childH) = row ? (child.W + slackW, mostH) : (mostW, child.H + slackH);
                if (child.Changed || child.MostW != childW || child.MostH != childH || child.Ways != ways)
                {
                    (child.MostW, child.MostH, child.Ways) = (childW, childH, ways);
                    if (c < items)
                    {
                        TellRoom(c, ref child); // most are leaves
                    }
                    else
                    {
                        MeasureWithin(c);
                    }
                }

                c = child.Next;
            }

            // Two have room if the smaller two have; all have it not if the largest has it not.
            (someW[node - items], someH[node - items]) = many < 3 ? (-1, -1) : row ? (mostW - beside, mostH - second) : (mostW - second, mostH - beside);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void TellRoom(int node, ref Node n)
    {
        unchecked
        {
            n.Changed = false;
            (takesW[node], takesH[node], edgeW[node], edgeH[node]) =
                n.Ways == Row ? (n.MostW - n.W, n.MostH, NoEdge, n.H) : (n.MostW, n.MostH - n.H, n.W, NoEdge);
        }
    }

    /// <summary>Has a node measured again, and all it stands in on the way to it.</summary>
    private void Touch(int node)
    {
        for (; node != None && !nodes[node].Changed; node = nodes[node].Parent)
        {
            nodes[node].Changed = true;
        }
    }

    private void PutUnder(int inBin, int item)
    {
        var stack = top[inBin];
        if (stack == None)
        {
            SetTop(inBin, item);
            return;
        }

        stale[inBin] = true;
        stack = stack < items || nodes[stack].Kind != Stack ? Wrap(stack, Stack) : stack;
        Attach(stack, item);
        Resize(stack);
    }

    /// <summary>Lays a node in an empty bin, with all it holds.</summary>
    public void SetTop(int inBin, int node)
    {
        (top[inBin], nodes[node].Bin, nodes[node].Parent) = (node, inBin, None);
        Note(node);

        stale[inBin] = true;
    }

    /// <summary>Puts a new row or stack in the place of a node, which becomes its only content.</summary>
    private int Wrap(int node, byte way)
    {
        var made = free[--freeCount];
        (nodes[made].Kind, nodes[made].W, nodes[made].H, nodes[made].First) = (way, nodes[node].W, nodes[node].H, None);
        var above = nodes[node].Parent;
        if (above == None)
        {
            var inBin = nodes[node].Bin;
            nodes[node].Bin = None;
            SetTop(inBin, made);
        }
        else
        {
            Detach(node);
            Attach(above, made);
        }

        Attach(made, node);
        return made;
    }

    private void Attach(int node, int child)
    {
        (nodes[child].Parent, nodes[child].Prev, nodes[child].Next) = (node, None, nodes[node].First);
        Note(child);

        if (nodes[node].First != None)
        {
            nodes[nodes[node].First].Prev = child;
        }

        nodes[node].First = child;
        Touch(node);
    }

    private void Note(int node)
    {
        if (node < items)
        {
            (nodes[node].First, nodes[node].Kind, nodes[node].Placed) = (None, 0, true);
        }
    }

    private void Detach(int node)
    {
        Touch(nodes[node].Parent);
        if (nodes[node].Prev != None)
        {
            nodes[nodes[node].Prev].Next = nodes[node].Next;
        }
        else
        {
            nodes[nodes[node].Parent].First = nodes[node].Next;
        }

        if (nodes[node].Next != None)
        {
            nodes[nodes[node].Next].Prev = nodes[node].Prev;
        }
    }

    /// <summary>After a child went: a row or stack of one is no row, and what it held joins its like above.</summary>
    private void Straighten(int node)
    {
        var only = nodes[node].First;
        if (nodes[only].Next != None)
        {
            Resize(node);
            return;
        }

        var above = nodes[node].Parent;
        if (above == None)
        {
            var inBin = nodes[node].Bin;
            nodes[node].Bin = None;
            SetTop(inBin, only);
        }
        else
        {
            Detach(node);
            if (only < items)
            {
                Attach(above, only);
            }
            else
            {
                for (var c = nodes[only].First; c != None;)
                {
                    var after = nodes[c].Next;
                    Attach(above, c);
                    c = after;
                }

                Release(only);
            }

            Resize(above);
        }

        Release(node);
    }

    private void Dissolve(int node, List<int> taken)
    {
        if (node < items)
        {
            (takesW[node], nodes[node].Placed, nodes[node].Changed) = (-1, false, true);
            taken.Add(node);
            return;
        }

        for (var c = nodes[node].First; c != None; c = nodes[c].Next)
        {
            Dissolve(c, taken);
        }

        Release(node);
    }

    private void Release(int node)
    {
        (takesW[node], someW[node - items], nodes[node].Kind, nodes[node].Changed) = (-1, -1, 0, true);
        free[freeCount++] = node;
    }

    /// <summary>Sizes a row or stack, and what it stands in, after an item was added.</summary>
    /// <returns>The highest node whose room to grow within changed: all outside it is as it was.</returns>
    private int Grow(int node, int child)
    {
        unchecked
        {
            var (plusW, plusH) = (nodes[child].W, nodes[child].H);
            var (childW, childH) = (plusW, plusH);
            var affected = node;
            while (node != None)
            {
                ref var n = ref nodes[node];
                var (nowW, nowH) = n.Kind == Row ? (n.W + plusW, Math.Max(n.H, childH)) : (Math.Max(n.W, childW), n.H + plusH);
                (plusW, plusH) = (nowW - n.W, nowH - n.H);
                if ((plusW | plusH) == 0)
                {
                    break;
                }

                (n.W, n.H) = (nowW, nowH);
                (childW, childH, affected, node) = (nowW, nowH, node, n.Parent);
            }

            return affected;
        }
    }

    /// <summary>Sizes a row or stack anew, and what it stands in as far as that changes.</summary>
    private void Resize(int node)
    {
        unchecked
        {
            while (node != None)
            {
                ref var n = ref nodes[node];
                int sumW = 0, sumH = 0, maxW = 0, maxH = 0;
                for (var c = n.First; c != None;)
                {
                    ref readonly var child = ref nodes[c];
                    (sumW, sumH) = (sumW + child.W, sumH + child.H);
                    (maxW, maxH) = (Math.Max(maxW, child.W), Math.Max(maxH, child.H));
                    c = child.Next;
                }

                var (nowW, nowH) = n.Kind == Row ? (sumW, maxH) : (maxW, sumH);
                if (nowW == n.W && nowH == n.H)
                {
                    return;
                }

                (n.W, n.H) = (nowW, nowH);
                node = n.Parent;
            }
        }
    }
}
