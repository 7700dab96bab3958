namespace Goodsheet.Room.Runs;

/// <summary>
/// Improves an order of work by iterated local search: stretches are moved and single pieces exchanged while that helps;
/// then a few neighbouring stretches are shaken up and it begins again from there.
/// </summary>
/// <remarks>
/// Lourenço, Martin, Stützle, "Iterated local search", Handbook of Metaheuristics, 2003; block moves for setups that depend
/// on the order after Subramanian, Battarra, Potts, IJPR 52(9), 2014 (both cited from memory). What was shaken up and mended
/// is gone on with as long as it costs hardly more than before: measured on five published instances, taking only what
/// is no worse, or four times as much, missed the best values that this meets.
/// </remarks>
public sealed class OrderSearch<T>
    where T : IOrdering
{
    private const int LongestBlock = 12;
    private const int Kicks = 3;
    private const int ShortBlock = 4;       // exchanged between lanes in a kick: up to 3
    private const int Window = 20;          // places within which one kick stays
    private const double Slack = 0.005;     // of the best cost: how much worse an order may be and still be gone on with
    private const int Patience = 1_000;     // optima without a new best before it goes back to the best
    private const int Step = 64;            // exchanges between two looks at the caller's stop

    private readonly T order;
    private readonly List<Exchange> made = [];
    private readonly List<(int Lane, int At)> places = [];
    private Chance chance;
    private Func<long, bool> stop = _ => true;
    private double now, found;
    private Exchange exchange;      // the best with the piece at hand, and in found what all costs after it
    private bool stopped;

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
        (this.stop, now, stopped) = (stop, order.Cost, false);
        Descend();
        var (from, since) = (now, 0);
        while (Best > least && !stopped && Places() > 1)
        {
            made.Clear();
            var before = Best;
            Shake();
            Descend();
            since = Best < before ? 0 : since + 1;
            if (now > from + (Slack * Best))
            {
                TakeBack();
                now = from;
            }

            if (since > Patience)
            {
                order.GoBack();
                (now, since) = (order.Cost, 0);
            }

            from = now;
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

    /// <summary>A few exchanges about one place, whatever they cost.</summary>
    private void Shake()
    {
        var home = chance.Below(order.Lanes);
        var at = chance.Below(order.Count(home) + 1);
        for (var kick = 0; kick < Kicks;)
        {
            var x = order.Lanes == 1 || chance.OneIn(2) ? Within(home, at) : Between(home, at);
            var empty = x.LaneA == x.LaneB ? x.LengthA == 0 || x.LengthB == 0 : x.LengthA + x.LengthB == 0;
            if (!empty && order.CostAfter(x, double.PositiveInfinity) < double.PositiveInfinity)
            {
                Make(x);
                kick++;
            }
            else if (chance.OneIn(8))
            {
                kick++;     // there may be nothing to shake there
            }

            Count();
        }

        now = order.Cost;
    }

    /// <summary>Two neighbouring stretches of one lane change places.</summary>
    private Exchange Within(int lane, int at)
    {
        var (from, size) = WindowOf(lane, at);
        Span<int> cuts = [from + chance.Below(size + 1), from + chance.Below(size + 1), from + chance.Below(size + 1)];
        cuts.Sort();
        return new(lane, cuts[0], cuts[1] - cuts[0], lane, cuts[1], cuts[2] - cuts[1]);
    }

    private Exchange Between(int lane, int at)
    {
        var other = (lane + 1 + chance.Below(order.Lanes - 1)) % order.Lanes;
        var ((from, size), (otherFrom, otherSize)) = (WindowOf(lane, at), WindowOf(other, at));
        var (a, b) = (chance.Below(size + 1), chance.Below(otherSize + 1));
        return new(lane, from + a, Math.Min(size - a, chance.Below(ShortBlock)), other, otherFrom + b, Math.Min(otherSize - b, chance.Below(ShortBlock)));
    }

    private (int From, int Size) WindowOf(int lane, int at)
    {
        var size = Math.Min(Window, order.Count(lane));
        return (Math.Clamp(at - (size / 2), 0, order.Count(lane) - size), size);
    }

    private void Make(in Exchange x)
    {
        order.Make(x);
        made.Add(x);
    }

    private void TakeBack()
    {
        for (var i = made.Count - 1; i >= 0; i--)
        {
            var x = made[i];
            order.Make(x.LaneA == x.LaneB
                ? new(x.LaneA, x.A, x.LengthB, x.LaneB, x.B + x.LengthB - x.LengthA, x.LengthA)
                : new(x.LaneA, x.A, x.LengthB, x.LaneB, x.B, x.LengthA));
        }
    }

    /// <summary>Takes one piece after another and does the best that can be done with it, until nothing helps any more.</summary>
    private void Descend()
    {
        for (var better = true; better && !stopped;)
        {
            better = false;
            Shuffle();
            foreach (var (lane, at) in places)
            {
                found = now;
                for (var length = 1; length <= LongestBlock && at + length <= order.Count(lane) && !stopped; length++)
                {
                    Moves(lane, at, length);
                }

                Swaps(lane, at);
                if (found < now)
                {
                    Make(exchange);
                    (now, better) = (found, true);
                }
            }
        }

        if (now < Best)
        {
            Best = now;
            order.Keep();
        }
    }

    private void Shuffle()
    {
        places.Clear();
        for (var lane = 0; lane < order.Lanes; lane++)
        {
            for (var at = 0; at < order.Count(lane); at++)
            {
                places.Add((lane, at));
            }
        }

        for (var i = places.Count - 1; i > 0; i--)
        {
            var j = chance.Below(i + 1);
            (places[i], places[j]) = (places[j], places[i]);
        }
    }

    /// <summary>Tries a stretch in every other place.</summary>
    private void Moves(int lane, int a, int length)
    {
        var end = a + length;
        for (var to = end + 1; to <= order.Count(lane); to++)
        {
            Try(new(lane, a, length, lane, end, to - end));
        }

        for (var to = 0; to < a; to++)
        {
            Try(new(lane, to, a - to, lane, a, length));
        }

        for (var other = 0; other < order.Lanes; other++)
        {
            for (var to = 0; other != lane && to <= order.Count(other); to++)
            {
                Try(new(lane, a, length, other, to, 0));
            }
        }
    }

    private void Swaps(int lane, int a)
    {
        if (a >= order.Count(lane))
        {
            return;     // the lane has grown shorter since
        }

        for (var to = a + 2; to < order.Count(lane); to++)
        {
            Try(new(lane, a, 1, lane, to, 1));
        }

        for (var other = lane + 1; other < order.Lanes; other++)
        {
            for (var to = 0; to < order.Count(other); to++)
            {
                Try(new(lane, a, 1, other, to, 1));
            }
        }
    }

    private void Try(in Exchange x)
    {
        if (stopped)
        {
            return;
        }

        var cost = order.CostAfter(x, found);
        if (cost < found)
        {
            (found, exchange) = (cost, x);
        }

        Count();
    }

    private void Count() => stopped |= ++Tried % Step == 0 && stop(Tried);
}
