using System.Numerics;

namespace Goodsheet.Room.Papers;

/// <summary>Finds the cheapest set of papers that together can take all of the work: an exact set cover.</summary>
/// <remarks>
/// Branch and bound on the work with the fewest papers left to take it; the bound counts works that no one paper can share.
/// Exact for up to 64 papers; a room has a dozen. R. M. Karp, "Reducibility among combinatorial problems" (1972), has the
/// problem; the search is our own.
/// </remarks>
public static class SmallestLineUp
{
    public const int MostPapers = 64;

    /// <summary>The cheapest papers, by their places in the list.</summary>
    /// <param name="takes">For each paper which works it can take, all of one length.</param>
    /// <param name="cost">What keeping each paper costs, 1 or more.</param>
    /// <returns>None if a work can be taken by no paper.</returns>
    public static IReadOnlyList<int>? Find(IReadOnlyList<bool[]> takes, IReadOnlyList<long> cost)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(takes.Count, MostPapers);
        var works = takes.Count == 0 ? 0 : takes[0].Length;
        var takers = Enumerable.Range(0, works)
            .Select(w => Enumerable.Range(0, takes.Count).Where(p => takes[p][w]).Aggregate(0UL, (mask, p) => mask | (1UL << p)))
            .Distinct().ToArray();
        if (takers.Contains(0UL))
        {
            return null;
        }

        // Who can take the narrower work takes the wider one along.
        takers = [.. takers.Where(wide => !takers.Any(narrow => narrow != wide && (narrow & wide) == narrow))];
        var search = new Search(takers, [.. cost]);
        search.Go(0, 0, 0);
        return [.. Members(search.Best)];
    }

    private static IEnumerable<int> Members(ulong mask)
    {
        for (; mask != 0; mask &= mask - 1)
        {
            yield return BitOperations.TrailingZeroCount(mask);
        }
    }

    private sealed class Search(ulong[] takers, long[] cost)
    {
        private long least = long.MaxValue;

        public ulong Best { get; private set; }

        public void Go(ulong chosen, ulong barred, long spent)
        {
            var open = takers.Where(t => (t & chosen) == 0).Select(t => t & ~barred).OrderBy(BitOperations.PopCount).ToList();
            if (open.Count == 0)
            {
                if (spent < least)
                {
                    (least, Best) = (spent, chosen);
                }

                return;
            }

            if (open[0] == 0 || spent + AtLeast(open) >= least)
            {
                return;
            }

            // The rarest work needs one of these; each is tried, and then barred, so that no set is seen twice.
            foreach (var paper in Members(open[0]).OrderBy(p => cost[p]))
            {
                Go(chosen | (1UL << paper), barred, spent + cost[paper]);
                barred |= 1UL << paper;
            }
        }

        private long AtLeast(List<ulong> open)
        {
            var (sum, used) = (0L, 0UL);
            foreach (var work in open)
            {
                if ((work & used) == 0)
                {
                    sum += Members(work).Min(p => cost[p]);
                    used |= work;
                }
            }

            return sum;
        }
    }
}
