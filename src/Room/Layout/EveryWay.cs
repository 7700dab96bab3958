namespace Goodsheet.Room.Layout;

/// <summary>
/// Few pieces, laid in every way there is: for each choice of pieces the smallest rectangles that can be cut into them, each
/// put together from two smaller choices. What it finds is the best there is; what it does not find does not exist.
/// </summary>
/// <remarks>
/// Rectangles from below as in Wang, "Two algorithms for constrained two-dimensional cutting stock problems", Oper. Res.
/// 31(3), 1983 (from memory), over choices of copies instead of single pieces. A rectangle that loses more paper than the
/// whole layout may lose is dropped at once; that is what makes it quick.
/// </remarks>
internal sealed partial class EveryWay
{
    private const int None = -1;
    private const int MostChoices = 300_000;
    private const double MostSplits = 2.5e8;    // 17 pieces that all differ: some seconds
    private const int MostCells = 10_000_000;   // 240 MB
    private const int SplitsToATurn = 200;      // of the other search, which so has a third of the time
    private const int WorkToATurn = 400;        // joins tried while the other search makes a turn
    private const int WorkToAnAnswer = 100_000; // about a millisecond

    private readonly Items items;
    private readonly int[] kind, copies, weight;
    private readonly long[] area;
    private readonly int[] firstCell, bins;
    private Cell[] cells = new Cell[1024];
    private int cellCount;
    private readonly List<Cell> front = [];
    private readonly int goal;
    private readonly long mayLose;

    /// <param name="goal">Height of the strip, or number of bins, that would do.</param>
    private EveryWay(Items items, int[][] kinds, int goal)
    {
        (this.items, this.goal) = (items, goal);
        kind = [.. kinds.Select(k => k[0])];
        copies = [.. kinds.Select(k => k.Length)];
        weight = new int[kinds.Length];
        var choices = 1;
        for (var k = 0; k < kinds.Length; k++)
        {
            weight[k] = choices;
            choices *= copies[k] + 1;
        }

        (area, firstCell, bins) = (new long[choices], new int[choices + 1], new int[choices]);
        var paper = (Int128)items.BinWidth * goal * (items.IsStrip ? 1 : items.BinHeight);
        mayLose = (long)Int128.Min(paper - Enumerable.Range(0, items.Count).Sum(i => (long)items.Width(i) * items.Height(i)), long.MaxValue / 4);
    }

    private int Tallest => items.IsStrip ? goal : items.BinHeight;

    /// <summary>How many turns of another search are worth making first; none if there is too much to try.</summary>
    public static long? TurnsBefore(Items items)
    {
        double splits = 1, choices = 1;
        foreach (var k in Kinds(items))
        {
            (splits, choices) = (splits * (k.Length + 1) * (k.Length + 2) / 2, choices * (k.Length + 1));
        }

        return splits <= MostSplits && choices <= MostChoices ? (long)(splits / SplitsToATurn) : null;
    }

    /// <summary>The best layout that reaches a goal.</summary>
    /// <param name="stop">Asked now and then with how many turns of another search this has been worth.</param>
    public static Found Search(Items items, int goal, Func<long, bool> stop)
    {
        var kinds = Kinds(items);
        var search = new EveryWay(items, kinds, goal);
        return search.mayLose < 0 ? new(true, null) : !search.Fill(stop) ? new(false, null) : new(true, search.Layout(kinds));
    }

    /// <summary>Items that are alike, together.</summary>
    private static int[][] Kinds(Items items) =>
        [.. Enumerable.Range(0, items.Count).GroupBy(i => (items.Width(i), items.Height(i), items.MayTurn(i))).Select(g => g.ToArray())];

    private bool Fill(Func<long, bool> stop)
    {
        var digits = new int[kind.Length];
        var part = new int[kind.Length];
        long work = 0, asked = 0;
        for (var choice = 1; choice < area.Length; choice++)
        {
            firstCell[choice] = cellCount;
            for (var k = 0; k < digits.Length; k++)
            {
                digits[k] = choice / weight[k] % (copies[k] + 1);
            }

            work += Try(choice, digits, part);
            if (cellCount + front.Count > cells.Length)
            {
                Array.Resize(ref cells, 2 * Math.Max(cells.Length, front.Count));
            }

            front.CopyTo(cells, cellCount);
            cellCount += front.Count;
            firstCell[choice + 1] = cellCount;
            if (work - asked > WorkToAnAnswer)
            {
                asked = work;
                if (cellCount > MostCells || stop(work / WorkToATurn))
                {
                    return false;
                }
            }
        }

        return true;
    }

    private long Try(int choice, int[] digits, int[] part)
    {
        front.Clear();
        var k = Array.FindIndex(digits, d => d > 0);
        var rest = choice - weight[k];
        area[choice] = area[rest] + ((long)items.Width(kind[k]) * items.Height(kind[k]));
        bins[choice] = int.MaxValue / 2;
        if (rest == 0)
        {
            var (w, h) = (items.Width(kind[k]), items.Height(kind[k]));
            Alone(w, h);
            if (items.MayTurn(kind[k]) && w != h)
            {
                Alone(h, w);
            }
        }

        void Alone(int wide, int high)
        {
            if (wide <= items.BinWidth && high <= Tallest)
            {
                Offer(new(wide, high, None, k, 0, false));
            }
        }

        Array.Clear(part);
        long work = 0;
        unchecked
        {
            var (widest, tallest, largest) = (items.BinWidth, Tallest, area[choice] + mayLose);

            // Of two parts the one with the smaller number goes first: a sum of numbers is the number of the sum.
            for (var a = Next(part, digits, 0); a != None && a <= choice - a; a = Next(part, digits, a))
            {
                var b = choice - a;
                bins[choice] = Math.Min(bins[choice], bins[a] + bins[b]);
                var ones = cells.AsSpan(firstCell[a], firstCell[a + 1] - firstCell[a]);
                var others = cells.AsSpan(firstCell[b], firstCell[b + 1] - firstCell[b]);
                work += 1 + (ones.Length * others.Length);
                for (var i = 0; i < ones.Length; i++)
                {
                    var (w1, h1) = (ones[i].Width, ones[i].Height);
                    for (var j = 0; j < others.Length; j++)
                    {
                        var (w2, h2) = (others[j].Width, others[j].Height);
                        var (w, h) = (w1 + w2, Math.Max(h1, h2));
                        if (w <= widest && (long)w * h <= largest)
                        {
                            Offer(new(w, h, a, firstCell[a] + i, firstCell[b] + j, true));
                        }

                        (w, h) = (Math.Max(w1, w2), h1 + h2);
                        if (h <= tallest && (long)w * h <= largest)
                        {
                            Offer(new(w, h, a, firstCell[a] + i, firstCell[b] + j, false));
                        }
                    }
                }
            }
        }

        bins[choice] = front.Count > 0 ? 1 : bins[choice];
        return work;
    }

    private int Next(int[] part, int[] digits, int number)
    {
        unchecked
        {
            for (var k = 0; k < part.Length; k++)
            {
                if (part[k] < digits[k])
                {
                    part[k]++;
                    return number + weight[k];
                }

                number -= part[k] * weight[k];
                part[k] = 0;
            }

            return None;
        }
    }

    /// <summary>Keeps a rectangle unless another is no wider and no higher; drops those it betters.</summary>
    private void Offer(in Cell cell)
    {
        unchecked
        {
            for (var i = 0; i < front.Count; i++)
            {
                if (front[i].Width <= cell.Width && front[i].Height <= cell.Height)
                {
                    return;
                }
            }

            for (var i = front.Count - 1; i >= 0; i--)
            {
                if (cell.Width <= front[i].Width && cell.Height <= front[i].Height)
                {
                    front[i] = front[^1];
                    front.RemoveAt(front.Count - 1);
                }
            }

            front.Add(cell);
        }
    }

    /// <param name="Finished">False if it was told to stop.</param>
    /// <param name="Best">None if no layout reaches the goal.</param>
    public readonly record struct Found(bool Finished, SlicingTree? Best);

    /// <summary>A rectangle that a choice can be cut from.</summary>
    /// <param name="Part">The choice that <paramref name="A"/> is a rectangle of; none if this is one piece, of kind A.</param>
    private readonly record struct Cell(int Width, int Height, int Part, int A, int B, bool InRow);
}
