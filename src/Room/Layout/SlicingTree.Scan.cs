using System.Numerics;

namespace Goodsheet.Room.Layout;

/// <summary>Where an item may go: beside (row) or under (stack) what a node holds, or alone in an empty bin.</summary>
internal readonly record struct Spot(int Node, byte Way, bool Turned, int Waste, int EmptyBin)
{
    public bool Fits => Node != SlicingTree.None || EmptyBin != SlicingTree.None;
}

/// <content>The search for places, and the upkeep of the tree.</content>
internal sealed partial class SlicingTree
{
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
                if (node != None && binHeight - h[node] >= ih && binWidth >= iw)
                {
                    Offer(node, Stack, Misfit(binHeight - h[node] - ih, binWidth - iw, w[node] - iw), turned, skip, ref best, ref chance);
                }
            }

            var (leastW, leastH) = (new Vector<int>(iw), new Vector<int>(ih));
            for (var lane = 0; lane < takesW.Length && best.Waste > 0; lane += Lanes)
            {
                var fits = Vector.GreaterThanOrEqual(new Vector<int>(takesW, lane), leastW)
                    & Vector.GreaterThanOrEqual(new Vector<int>(takesH, lane), leastH);
                if (fits == Vector<int>.Zero)
                {
                    continue;
                }

                for (var c = lane; c < lane + Lanes; c++)
                {
                    var (freeW, freeH) = (takesW[c] - iw, takesH[c] - ih);
                    if ((freeW | freeH) >= 0)
                    {
                        Offer(c, ways[c], Misfit(freeW, freeH, ways[c] == Row ? h[c] - ih : w[c] - iw), turned, skip, ref best, ref chance);
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

    /// <summary>Tells every node of a bin the most it may grow to, from the bin down.</summary>
    private void Measure(int inBin)
    {
        stale[inBin] = false;
        var node = top[inBin];
        if (node == None)
        {
            return;
        }

        (mostW[node], mostH[node], ways[node]) = (binWidth, binHeight, Row);
        MeasureWithin(node);
    }

    private void MeasureWithin(int node)
    {
        unchecked
        {
            var (slackW, slackH) = (mostW[node] - w[node], mostH[node] - h[node]);
            (takesW[node], takesH[node]) = ways[node] == Row ? (slackW, mostH[node]) : (mostW[node], slackH);
            if (node < items)
            {
                return;
            }

            var row = kind[node] == Row;
            for (var c = first[node]; c != None; c = next[c])
            {
                (mostW[c], mostH[c], ways[c]) = row ? (w[c] + slackW, mostH[node], Stack) : (mostW[node], h[c] + slackH, Row);
                MeasureWithin(c);
            }
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
        stack = stack < items || kind[stack] != Stack ? Wrap(stack, Stack) : stack;
        Attach(stack, item);
        Resize(stack);
    }

    /// <summary>Lays a node in an empty bin, with all it holds.</summary>
    public void SetTop(int inBin, int node)
    {
        (top[inBin], bin[node], parent[node]) = (node, inBin, None);
        Note(node);

        stale[inBin] = true;
    }

    /// <summary>Puts a new row or stack in the place of a node, which becomes its only content.</summary>
    private int Wrap(int node, byte way)
    {
        var made = free[--freeCount];
        (kind[made], w[made], h[made], first[made]) = (way, w[node], h[node], None);
        var above = parent[node];
        if (above == None)
        {
            var inBin = bin[node];
            bin[node] = None;
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
        (parent[child], prev[child], next[child]) = (node, None, first[node]);
        Note(child);

        if (first[node] != None)
        {
            prev[first[node]] = child;
        }

        first[node] = child;
    }

    private void Note(int node)
    {
        if (node < items)
        {
            (first[node], kind[node], placed[node]) = (None, 0, true);
        }
    }

    private void Detach(int node)
    {
        if (prev[node] != None)
        {
            next[prev[node]] = next[node];
        }
        else
        {
            first[parent[node]] = next[node];
        }

        if (next[node] != None)
        {
            prev[next[node]] = prev[node];
        }
    }

    /// <summary>After a child went: a row or stack of one is no row, and what it held joins its like above.</summary>
    private void Straighten(int node)
    {
        var only = first[node];
        if (next[only] != None)
        {
            Resize(node);
            return;
        }

        var above = parent[node];
        if (above == None)
        {
            var inBin = bin[node];
            bin[node] = None;
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
                for (var c = first[only]; c != None;)
                {
                    var after = next[c];
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
            (takesW[node], placed[node]) = (-1, false);
            taken.Add(node);
            return;
        }

        for (var c = first[node]; c != None; c = next[c])
        {
            Dissolve(c, taken);
        }

        Release(node);
    }

    private void Release(int node)
    {
        takesW[node] = -1;
        free[freeCount++] = node;
    }

    /// <summary>Sizes a row or stack, and what it stands in, after an item was added.</summary>
    /// <returns>The highest node whose room to grow within changed: all outside it is as it was.</returns>
    private int Grow(int node, int child)
    {
        unchecked
        {
            var (plusW, plusH) = (w[child], h[child]);
            var affected = node;
            while (node != None)
            {
                var (nowW, nowH) = kind[node] == Row ? (w[node] + plusW, Math.Max(h[node], h[child])) : (Math.Max(w[node], w[child]), h[node] + plusH);
                (plusW, plusH) = (nowW - w[node], nowH - h[node]);
                if ((plusW | plusH) == 0)
                {
                    break;
                }

                (w[node], h[node]) = (nowW, nowH);
                (affected, child, node) = (node, node, parent[node]);
            }

            return affected;
        }
    }

    private void Resize(int node)
    {
        unchecked
        {
            for (; node != None; node = parent[node])
            {
                int sumW = 0, sumH = 0, maxW = 0, maxH = 0;
                for (var c = first[node]; c != None; c = next[c])
                {
                    (sumW, sumH) = (sumW + w[c], sumH + h[c]);
                    (maxW, maxH) = (Math.Max(maxW, w[c]), Math.Max(maxH, h[c]));
                }

                (w[node], h[node]) = kind[node] == Row ? (sumW, maxH) : (maxW, sumH);
            }
        }
    }
}
