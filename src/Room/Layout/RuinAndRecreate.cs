namespace Goodsheet.Room.Layout;

/// <summary>
/// Improves a layout by taking a few items out at random and putting them back where they fit best, towards a goal that
/// is always a little better than the best layout yet.
/// </summary>
/// <remarks>
/// After Gardeyn and Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing problem
/// with guillotine constraints", EJOR 301(2), 2022, and late acceptance (Burke and Bykov, EJOR 258(1), 2017; both cited from memory). The goal
/// is one bin less, or a lower strip; what is searched is the area of items that the goal leaves out.
/// </remarks>
internal sealed class RuinAndRecreate
{
    private const int Memory = 50;           // how many turns late acceptance looks back; 200 and 1,000 left more on strips
    private const int Skip = 50;             // one in so many better places is passed over; 20 was worse
    private const int MaxOut = 10;           // most items taken out at once; 6 was no better
    private const int Climb = 4;             // one in so many times the row or stack goes with the item; 2 takes out too much at once where there are many
    private const int Patience = 4_000;      // turns without a nearer miss before a strip's step is halved, or all is let loose again; 1,000 and 2,000 were like it
    private const int Stay = 70;             // in a hundred times what goes next is near what went before; 50 and 85 were like it, 0 was worse with many items
    private const double Heat = 1;           // mean items more that may be left out then; .5 and 2 were like it

    private readonly Items items;
    private readonly double meanArea;
    private readonly SlicingTree now, kept;
    private readonly List<int> outside = [], keptOutside = [], taken = [];
    private readonly int[] keys, order;
    private readonly int[][] ranks; // ways to sort what is put back: the last, by chance
    private readonly double[] memory = new double[Memory];
    private double left; // area of the items outside what is kept
    private Chance chance;

    public RuinAndRecreate(Items items, SlicingTree start, int seed)
    {
        this.items = items;
        Best = start;
        meanArea = Enumerable.Range(0, items.Count).Average(items.Area);
        (now, kept) = (start.Twin(), start.Twin());
        (keys, order) = (new int[items.Count], new int[items.Count]);
        ranks =
        [
            Ranked(items.Area), Ranked(i => Math.Max(items.Width(i), items.Height(i))), Ranked(i => Math.Min(items.Width(i), items.Height(i))), [],
        ];
        chance = new(seed);
    }

    public SlicingTree Best { get; private set; }

    /// <summary>Turns done so far.</summary>
    public long Turns { get; private set; }

    /// <summary>Puts in place of the best layout one that another search found.</summary>
    public void Take(SlicingTree better) => Best = better;

    /// <summary>Searches until the bound is met or it is told to stop.</summary>
    public void Run(long bound, Func<long, bool> stop)
    {
        var strip = items.IsStrip;
        var step = strip ? Math.Max(1, (Best.TopHeight(0) - bound) / 8) : 1;
        long sinceNearer = 0;
        var least = Cost > bound ? Aim(step) : 0;
        while (Cost > bound && !stop(Turns))
        {
            Turns++;
            var slot = (int)(Turns % Memory);
            Ruin();
            if (Recreate(Math.Max(left, memory[slot])))
            {
                Keep();
            }
            else
            {
                GoBack();
            }

            if (outside.Count == 0)
            {
                DropEmptyBins();
                Best.CopyFrom(now);
                step = Math.Min(step, Math.Max(1, Cost - bound));
                (least, sinceNearer) = (Cost > bound ? Aim(step) : 0, 0);
                continue;
            }

            memory[slot] = Math.Min(memory[slot], left);
            sinceNearer = left < least ? 0 : sinceNearer + 1;
            least = Math.Min(least, left);
            if (sinceNearer > Patience)
            {
                if (step > 1)
                {
                    step /= 2;
                    least = Aim(step);
                }
                else
                {
                    least = Reheat();
                }

                sinceNearer = 0;
            }
        }
    }

    public long Cost => CostOf(Best);

    private long CostOf(SlicingTree tree) => items.IsStrip ? tree.TopHeight(0) : tree.Bins;

    /// <summary>Sets out from the best layout towards one a step better; gives the area left out.</summary>
    private double Aim(long step)
    {
        now.CopyFrom(Best);
        outside.Clear();
        if (items.IsStrip)
        {
            now.BinHeight = (int)(Best.TopHeight(0) - step);
            while (now.TopHeight(0) > now.BinHeight)
            {
                now.Remove(Highest(), outside);
            }
        }
        else
        {
            now.SwapBins(Emptiest(), now.Bins - 1);
            now.Remove(now.Top(now.Bins - 1), outside);
            now.Bins--;
        }

        Recreate(double.PositiveInfinity);
        Keep();
        Array.Fill(memory, left);
        return left;
    }

    /// <summary>Lets the search leave a dead end: for a while so much more may be left out. Gives the area from which on it is nearer again.</summary>
    private double Reheat()
    {
        var least = left + (Heat * meanArea);
        Array.Fill(memory, least);
        return least;
    }

    private void Keep()
    {
        kept.CopyFrom(now);
        keptOutside.Clear();
        keptOutside.AddRange(outside);
        left = Left(outside);
    }

    private void GoBack()
    {
        now.CopyFrom(kept);
        outside.Clear();
        outside.AddRange(keptOutside);
    }

    private void DropEmptyBins()
    {
        for (var b = now.Bins - 1; b >= 0; b--)
        {
            if (now.Top(b) == SlicingTree.None)
            {
                now.SwapBins(b, now.Bins - 1);
                now.Bins--;
            }
        }
    }

    private int Emptiest()
    {
        var area = new double[now.Bins];
        for (var i = 0; i < items.Count; i++)
        {
            area[now.BinOf(i)] += items.Area(i);
        }

        return Array.IndexOf(area, area.Min());
    }

    /// <summary>A leaf that the height of the strip hangs on.</summary>
    private int Highest()
    {
        var node = now.Top(0);
        while (!now.IsLeaf(node))
        {
            var children = now.Children(node).ToArray();
            node = now.IsRow(node) ? children.MaxBy(now.Height) : children[chance.Below(children.Length)];
        }

        return node;
    }

    private double Left(List<int> list)
    {
        double sum = 0;
        foreach (var item in list)
        {
            sum += items.Area(item);
        }

        return sum;
    }

    /// <summary>Takes a few items out: mostly near one another, so that what comes free is in one place.</summary>
    private void Ruin()
    {
        var placed = items.Count - outside.Count;
        var many = 1 + chance.Below(Math.Min(placed, MaxOut));
        taken.Clear();
        var (above, over) = (SlicingTree.None, SlicingTree.None);
        while (taken.Count < many && taken.Count < placed)
        {
            var near = now.IsJoint(above) ? above : now.IsJoint(over) ? over : SlicingTree.None;
            var node = near != SlicingTree.None && chance.Below(100) < Stay ? now.AnyIn(near, ref chance) : Anywhere();
            above = now.Parent(node);
            over = above == SlicingTree.None ? above : now.Parent(above);
            now.Remove(node, taken);
        }

        outside.AddRange(taken);
    }

    private int Anywhere()
    {
        var node = chance.Below(items.Count);
        while (!now.IsPlaced(node))
        {
            node = chance.Below(items.Count);
        }

        while (chance.OneIn(Climb) && now.Parent(node) != SlicingTree.None)
        {
            node = now.Parent(node);
        }

        return node;
    }

    /// <summary>Puts back what is outside; false, and half done, once more than a limit is sure to stay there.</summary>
    private bool Recreate(double limit)
    {
        var rank = ranks[chance.Below(ranks.Length)];
        var count = outside.Count;
        for (var i = 0; i < count; i++)
        {
            // Few items: sorted while they are put in.
            var item = outside[i];
            var key = rank.Length == 0 ? chance.Below(1 << 20) : rank[item];
            var at = i;
            for (; at > 0 && keys[at - 1] > key; at--)
            {
                (keys[at], order[at]) = (keys[at - 1], order[at - 1]);
            }

            (keys[at], order[at]) = (key, item);
        }

        outside.Clear();
        double over = 0;
        for (var i = 0; i < count; i++)
        {
            var item = order[i];
            if (!PutBack(item))
            {
                outside.Add(item);
                over += items.Area(item);
                if (over > limit)
                {
                    return false;
                }
            }
        }

        return true;
    }

    /// <summary>Puts an item where it leaves the least unusable; false if it fits nowhere.</summary>
    private bool PutBack(int item)
    {
        var (width, height, mayTurn) = (items.Width(item), items.Height(item), items.MayTurn(item));
        var spot = now.Find(width, height, mayTurn, Skip, ref chance);

        // On sheets it found nothing more and took time.
        if (items.IsStrip && now.PutTogether(item, width, height, mayTurn, spot.Waste, Skip, ref chance))
        {
            return true;
        }

        if (spot.Fits)
        {
            now.Put(item, width, height, spot);
        }

        return spot.Fits;
    }

    /// <summary>Where each item stands among all, largest first.</summary>
    private int[] Ranked(Func<int, double> size)
    {
        var rank = new int[items.Count];
        foreach (var (item, at) in Enumerable.Range(0, items.Count).OrderByDescending(size).Select((item, at) => (item, at)))
        {
            rank[item] = at;
        }

        return rank;
    }
}
