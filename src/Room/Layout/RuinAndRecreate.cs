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
    private const int Memory = 200;          // how many iterations late acceptance looks back; not tuned: 2,000 was tried once and showed no gain
    private const int Skip = 50;             // one in so many better places is passed over; a first choice, not tuned
    private const int MaxOut = 10;           // most items taken out at once; 4, 8 and 14 were tried on ten instances, with differences inside the noise
    private const int Climb = 2;             // one in so many times the row or stack goes with the item; 4 was like it, never (100) plainly worse
    private const int Patience = 4_000;      // iterations without a nearer miss before a strip's step is halved; a first choice, not tuned

    private readonly Items items;
    private readonly SlicingTree now, kept;
    private readonly List<int> outside = [], keptOutside = [], taken = [];
    private readonly int[] keys, order;
    private readonly int[][] ranks; // ways to sort what is put back: the last, by chance
    private readonly double[] memory = new double[Memory];
    private Chance chance;

    public RuinAndRecreate(Items items, SlicingTree start, int seed)
    {
        this.items = items;
        Best = start;
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
            var before = Left(outside);
            kept.CopyFrom(now);
            keptOutside.Clear();
            keptOutside.AddRange(outside);
            Ruin();
            Recreate();
            var after = Left(outside);
            var slot = (int)(Turns % Memory);
            if (outside.Count == 0)
            {
                DropEmptyBins();
                Best.CopyFrom(now);
                step = Math.Min(step, Math.Max(1, Cost - bound));
                (least, sinceNearer) = (Cost > bound ? Aim(step) : 0, 0);
                continue;
            }

            if (after > before && after > memory[slot])
            {
                now.CopyFrom(kept);
                outside.Clear();
                outside.AddRange(keptOutside);
                after = before;
            }

            memory[slot] = Math.Min(memory[slot], after);
            sinceNearer = after < least ? 0 : sinceNearer + 1;
            least = Math.Min(least, after);
            if (sinceNearer > Patience && step > 1)
            {
                step /= 2;
                (least, sinceNearer) = (Aim(step), 0);
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

        Recreate();
        var left = Left(outside);
        Array.Fill(memory, left);
        return left;
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

    private void Ruin()
    {
        var placed = items.Count - outside.Count;
        var many = 1 + chance.Below(Math.Min(placed, MaxOut));
        taken.Clear();
        while (taken.Count < many && taken.Count < placed)
        {
            var node = chance.Below(items.Count);
            if (!now.IsPlaced(node))
            {
                continue;
            }

            while (chance.OneIn(Climb) && now.Parent(node) != SlicingTree.None)
            {
                node = now.Parent(node);
            }

            now.Remove(node, taken);
        }

        outside.AddRange(taken);
    }

    private void Recreate()
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
        for (var i = 0; i < count; i++)
        {
            var item = order[i];
            var spot = now.Find(items.Width(item), items.Height(item), items.MayTurn(item), Skip, ref chance);
            if (spot.Fits)
            {
                now.Put(item, items.Width(item), items.Height(item), spot);
            }
            else
            {
                outside.Add(item);
            }
        }
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
