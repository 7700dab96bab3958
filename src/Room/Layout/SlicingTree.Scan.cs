namespace Goodsheet.Room.Layout;

/// <summary>Where an item may go: beside (row) or under (stack) what a node holds, or alone in an empty bin.</summary>
internal readonly record struct Spot(int Node, byte Way, bool Turned, long Waste, int EmptyBin)
{
    public bool Fits => Node != SlicingTree.None || EmptyBin != SlicingTree.None;
}

/// <content>The search for places, and the upkeep of the tree.</content>
internal sealed partial class SlicingTree
{
    private void Scan(long iw, long ih, bool turned, int skip, ref Spot best, ref Chance chance)
    {
        unchecked
        {
            for (var c = 0; c < mostW.Length; c++)
            {
                var (freeW, freeH) = (mostW[c] - iw, mostH[c] - ih);
                if (freeW < 0 || freeH < 0)
                {
                    continue;
                }

                if ((ways[c] & Row) != 0 && freeW >= w[c])
                {
                    var waste = Misfit(freeW - w[c], freeH, h[c] - ih);
                    if (waste < best.Waste && !(skip > 0 && chance.OneIn(skip)))
                    {
                        best = new(c, Row, turned, waste, None);
                    }
                }

                if ((ways[c] & Stack) != 0 && freeH >= h[c])
                {
                    var waste = Misfit(freeH - h[c], freeW, w[c] - iw);
                    if (waste < best.Waste && !(skip > 0 && chance.OneIn(skip)))
                    {
                        best = new(c, Stack, turned, waste, None);
                    }
                }
            }
        }
    }

    /// <summary>How badly an item fits: the least of what it leaves beside itself, of what its node could still grow,
    /// and of the step between it and what is there. One close fit is enough to be good.</summary>
    private static long Misfit(long along, long across, long step) => Math.Min(Math.Min(along, across), Math.Abs(step));

    /// <summary>Tells every node of a bin the most it may grow to, from the bin down.</summary>
    private void Measure(int inBin)
    {
        stale[inBin] = false;
        var node = top[inBin];
        if (node == None)
        {
            return;
        }

        (mostW[node], mostH[node], ways[node]) = (binWidth, binHeight, Row | Stack);
        MeasureWithin(node);
    }

    private void MeasureWithin(int node)
    {
        var (slackW, slackH) = (mostW[node] - w[node], mostH[node] - h[node]);
        var row = kind[node] == Row;
        for (var c = first[node]; c != None; c = next[c])
        {
            mostW[c] = row ? w[c] + slackW : mostW[node];
            mostH[c] = row ? mostH[node] : h[c] + slackH;
            ways[c] = row ? Stack : Row;
            if (c >= items)
            {
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

    private void SetTop(int inBin, int node)
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
            (mostW[node], placed[node]) = (-1, false);
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
        mostW[node] = -1;
        free[freeCount++] = node;
    }

    private void Resize(int node)
    {
        for (; node != None; node = parent[node])
        {
            long sumW = 0, sumH = 0, maxW = 0, maxH = 0;
            for (var c = first[node]; c != None; c = next[c])
            {
                (sumW, sumH) = (sumW + w[c], sumH + h[c]);
                (maxW, maxH) = (Math.Max(maxW, w[c]), Math.Max(maxH, h[c]));
            }

            (w[node], h[node]) = kind[node] == Row ? (sumW, maxH) : (maxW, sumH);
        }
    }
}
