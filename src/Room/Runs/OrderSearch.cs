namespace Goodsheet.Room.Runs;

/// <summary>
/// Improves an order of work by exchanging stretches of it at random: annealing in rounds, each twice as long as the one
/// before, each from the best order yet.
/// </summary>
/// <remarks>
/// Kirkpatrick, Gelatt, Vecchi, "Optimization by simulated annealing", Science 220, 1983 (from memory). Rounds that double
/// need no budget told beforehand: whenever the search is stopped, half of the time was spent in the longest round. The
/// warmth a round begins with is taken from the smaller of the rises that exchanges of the best order would bring.
/// </remarks>
public sealed class OrderSearch<T>
    where T : IOrdering
{
    private const int FirstRound = 2_000;
    private const double Begin = 0.8;           // warmth at first, as a part of a small rise; 0.3 to 1 were alike on five published instances, 0.02 of the mean rise worse
    private const double End = 0.01;            // and at last
    private const int Sampled = 200;
    private const int Step = 64;                // exchanges between two looks at the caller's stop and the warmth
    private const int Nearby = 8;
    private const int LongestBlock = 12;

    private readonly double[] exponential = [.. Enumerable.Range(0, 4096).Select(i => -Math.Log((i + 0.5) / 4096))];

    private readonly T order;
    private Chance chance;

    public OrderSearch(T order, int seed)
    {
        this.order = order;
        chance = new(seed);
        order.Keep();
        Best = order.Cost;
    }

    /// <summary>The least cost met; the order it belongs to is the one kept.</summary>
    public double Best { get; private set; }

    /// <summary>Exchanges tried.</summary>
    public long Tried { get; private set; }

    /// <summary>Searches until told to stop, or until nothing better is possible. Leaves the best order in place.</summary>
    /// <param name="least">A cost that no order goes under, 0 if nothing is known.</param>
    /// <param name="stop">Asked every 64 exchanges with how many were tried.</param>
    public void Run(double least, Func<long, bool> stop)
    {
        for (long round = FirstRound; Best > least && Places() > 1; round *= 2)
        {
            if (!Round(round, least, stop))
            {
                break;
            }
        }

        order.GoBack();
    }

    private int Places()
    {
        var all = 0;
        for (var lane = 0; lane < order.Lanes; lane++)
        {
            all += order.Count(lane) + (order.Lanes > 1 ? 1 : 0);
        }

        return all;
    }

    private bool Round(long length, double least, Func<long, bool> stop)
    {
        order.GoBack();
        var now = order.Cost;
        var rise = SmallRise(now);
        var warmth = rise * Begin;
        var cooling = Math.Pow(End / Begin, (double)Step / length);
        for (long turn = 0; turn < length; turn++)
        {
            if (turn % Step == 0)
            {
                warmth *= cooling;
                if (stop(Tried))
                {
                    return false;
                }
            }

            Tried++;
            var exchange = Draw();
            var limit = now + (warmth * exponential[chance.Below(exponential.Length)]);
            var after = order.CostAfter(exchange, limit);
            if (after > limit)
            {
                continue;
            }

            order.Make(exchange);
            now = after;
            if (now < Best)
            {
                Best = now;
                order.Keep();
                if (Best <= least)
                {
                    return false;
                }
            }
        }

        return true;
    }

    /// <summary>One rise in five is smaller. The mean would be ruled by the few that make everything late.</summary>
    private double SmallRise(double now)
    {
        var rises = new List<double>(Sampled);
        for (var i = 0; i < Sampled; i++)
        {
            var after = order.CostAfter(Draw(), double.PositiveInfinity);
            if (after > now && after < double.PositiveInfinity)
            {
                rises.Add(after - now);
            }
        }

        rises.Sort();
        return rises.Count == 0 ? 1 : rises[rises.Count / 5];
    }

    private Exchange Draw()
    {
        while (true)
        {
            var (laneA, laneB) = (chance.Below(order.Lanes), chance.Below(order.Lanes));
            var (a, b) = (order.Count(laneA), order.Count(laneB));
            if (a == 0 || (laneA == laneB && a < 2))
            {
                continue;
            }

            if (laneA != laneB)
            {
                var from = chance.Below(a);
                var to = chance.Below(b + 1);
                return new(laneA, from, Block(a - from), laneB, to, chance.OneIn(2) || to == b ? 0 : Block(b - to));
            }

            if (chance.OneIn(4))
            {
                var (x, y) = Two(a);
                return new(laneA, x, 1, laneA, y, 1);
            }

            // Two neighbouring stretches change places, one of them short: that also moves a single piece of work.
            var (first, end) = Two(a + 1);
            if (end - first < 2)
            {
                continue;
            }

            var block = Block(end - first - 1);
            var cut = chance.OneIn(2) ? first + block : end - block;
            return new(laneA, first, cut - first, laneA, cut, end - cut);
        }
    }

    private int Block(int most)
    {
        var length = 1;
        while (length < most && length < LongestBlock && chance.OneIn(2))
        {
            length++;
        }

        return length;
    }

    /// <summary>Two different places in order, half of the time near each other.</summary>
    private (int First, int Second) Two(int count)
    {
        var first = chance.Below(count);
        var second = chance.OneIn(2) ? chance.Below(count) : Math.Clamp(first + chance.Below((2 * Nearby) + 1) - Nearby, 0, count - 1);
        if (first == second)
        {
            second = first + 1 < count ? first + 1 : first - 1;
        }

        return first < second ? (first, second) : (second, first);
    }
}
