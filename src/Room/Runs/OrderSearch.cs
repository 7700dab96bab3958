namespace Goodsheet.Room.Runs;

/// <summary>
/// Improves an order of work by iterated local search: stretches are moved and single pieces exchanged while that helps;
/// then a few neighbouring stretches are shaken up and it begins again from there.
/// </summary>
/// <remarks>
/// Lourenço, Martin, Stützle, "Iterated local search", Handbook of Metaheuristics, 2003; block moves for setups that depend
/// on the order after Subramanian, Battarra, Potts, IJPR 52(9), 2014; passing over what adds much setup, by what was seen to help,
/// after Subramanian, Farias, Comput. Oper. Res. 79, 2017 (all cited from memory). What was shaken up and mended is gone on with
/// while it costs hardly more than the lowest of its round, ever less towards its end: see docs/decisions/0422.
/// </remarks>
public sealed class OrderSearch<T>
    where T : IOrdering
{
    private const int LongestBlock = 12;
    private const int Kicks = 3;
    private const int ShortBlock = 4;       // exchanged between lanes in a kick: up to 3
    private const int Window = 20;          // places within which one kick stays
    private const double Slack = 0.0075;    // of the best cost: how much worse than the round's lowest an order may be at its start
    private const int Round = 400;          // optima; at its end nothing worse is gone on with
    private const int Shakes = 10;          // before a new round
    private const int Near = 3;             // places on each side of a joint that are looked at again
    private const int Lessons = 40;         // exchanges of a kind that helped before others are measured by them
    private const double Share = 0.9;       // of these, the share whose changing over is still looked at
    private const int Swap = 5;             // kinds: moves of 1, 2, 3, up to 6, up to 12; swaps; and as many between lanes
    private const int KindsInALane = 6;
    private const int Step = 64;            // exchanges between two looks at the caller's stop

    private readonly T order;
    private readonly List<Exchange> made = [];
    private readonly List<(int Lane, int At)> places = [];
    private readonly List<double>[] lessons = [.. Enumerable.Range(0, 2 * KindsInALane).Select(_ => new List<double>(Lessons))];
    private readonly double[] most = [.. Enumerable.Repeat(double.PositiveInfinity, 2 * KindsInALane)];
    private readonly bool[][] awake; // places to be looked at: about what changed since they were last
    private int longest = LongestBlock;
    private Chance chance;
    private Func<long, bool> stop = _ => true;
    private double now, found;
    private int foundKind;
    private Exchange exchange;      // the best with the piece at hand, and in found what all costs after it
    private bool stopped;

    public OrderSearch(T order, int seed)
    {
        this.order = order;
        var pieces = Enumerable.Range(0, order.Lanes).Sum(order.Count);
        awake = [.. Enumerable.Range(0, order.Lanes).Select(_ => new bool[pieces])];
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
        Mend(1);
        Mend(LongestBlock);
        var (from, lowest, optima, fromBest) = (now, now, 0, true);
        while (Best > least && !stopped && Places() > 1)
        {
            var before = Best;
            Shake();
            Descend();
            if (now < before)
            {
                Mend(LongestBlock);
            }

            // Hotter at the start of a round than at its end.
            var slack = Slack * Best * (Round - optima) / Round;
            if (now > lowest + slack)
            {
                TakeBack();
                now = from;
            }

            lowest = Math.Min(lowest, now);
            if (++optima == Round)
            {
                Startle(fromBest = !fromBest);
                (lowest, optima) = (now, 0);
            }

            from = now;
        }

        order.GoBack();
    }

    /// <summary>Looks at every place, and at what changes, until nothing helps.</summary>
    private void Mend(int upTo)
    {
        longest = upTo;
        foreach (var lane in awake)
        {
            Array.Fill(lane, true);
        }

        Descend();
    }

    /// <summary>Shakes the order at hand, or the best, in several places and mends it: where the next round sets out from.</summary>
    private void Startle(bool fromBest)
    {
        if (fromBest)
        {
            order.GoBack();
        }

        for (var i = 0; i < Shakes; i++)
        {
            Shake();
        }

        Mend(LongestBlock);
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
        made.Clear();
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
        Wake(x.LaneA, x.A);
        Wake(x.LaneB, x.B + x.LengthB);
        if (x.LaneA == x.LaneB)
        {
            Wake(x.LaneA, x.A + x.LengthB);
            Wake(x.LaneA, x.B + x.LengthB - x.LengthA);
        }
        else
        {
            Wake(x.LaneA, x.A + x.LengthB);
            Wake(x.LaneB, x.B);
            Wake(x.LaneB, x.B + x.LengthA);
        }
    }

    /// <summary>Marks the places about a joint to be looked at again.</summary>
    private void Wake(int lane, int joint)
    {
        for (var at = Math.Max(0, joint - Near - 1); at <= joint + Near && at < order.Count(lane); at++)
        {
            awake[lane][at] = true;
        }
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
                awake[lane][at] = false;
                found = now;
                for (var length = 1; length <= longest && at + length <= order.Count(lane) && !stopped; length++)
                {
                    Moves(lane, at, length);
                }

                Swaps(lane, at);
                if (found < now)
                {
                    Learn();
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

    /// <summary>Notes how much more changing over an exchange made that helped. Once enough are noted, exchanges that make more are
    /// passed over without being timed.</summary>
    private void Learn()
    {
        var noted = lessons[foundKind];
        if (noted.Count == Lessons)
        {
            return;
        }

        noted.Add(order.MoreChanging(exchange));
        if (noted.Count == Lessons)
        {
            noted.Sort();
            most[foundKind] = noted[(int)(Share * (Lessons - 1))];
        }
    }

    private void Shuffle()
    {
        places.Clear();
        for (var lane = 0; lane < order.Lanes; lane++)
        {
            for (var at = 0; at < order.Count(lane); at++)
            {
                if (awake[lane][at])
                {
                    places.Add((lane, at));
                }
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
        var (end, kind) = (a + length, length switch { <= 3 => length - 1, <= 6 => 3, _ => 4 });
        for (var to = end + 1; to <= order.Count(lane); to++)
        {
            Try(new(lane, a, length, lane, end, to - end), kind);
        }

        for (var to = 0; to < a; to++)
        {
            Try(new(lane, to, a - to, lane, a, length), kind);
        }

        for (var other = 0; other < order.Lanes; other++)
        {
            for (var to = 0; other != lane && to <= order.Count(other); to++)
            {
                Try(new(lane, a, length, other, to, 0), kind);
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
            Try(new(lane, a, 1, lane, to, 1), Swap);
        }

        for (var other = lane + 1; other < order.Lanes; other++)
        {
            for (var to = 0; to < order.Count(other); to++)
            {
                Try(new(lane, a, 1, other, to, 1), Swap);
            }
        }
    }

    private void Try(in Exchange x, int kind)
    {
        if (stopped)
        {
            return;
        }

        kind += x.LaneA == x.LaneB ? 0 : KindsInALane;
        Count();
        if (most[kind] < double.PositiveInfinity && order.MoreChanging(x) > most[kind])
        {
            return;
        }

        var cost = order.CostAfter(x, found);
        if (cost < found)
        {
            (found, exchange, foundKind) = (cost, x, kind);
        }
    }

    private void Count() => stopped |= ++Tried % Step == 0 && stop(Tried);
}
