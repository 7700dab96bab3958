namespace Goodsheet.Room.Runs;

/// <summary>Which printer takes which runs, and in which order, as the search moves them about.</summary>
internal sealed class DayOrder : IOrdering
{
    private readonly DayTimes times;
    private readonly DayChanges changes;
    private readonly int[] counts, keptCounts, tryCounts;
    private int[] spareA, spareB;
    private readonly int[][] lanes, kept, trial;

    public DayOrder(DayWork work, IReadOnlyList<IReadOnlyList<int>> order)
    {
        (times, changes) = (new(work), new(work));
        var size = work.Runs.Count;
        (counts, keptCounts, tryCounts) = (new int[order.Count], new int[order.Count], new int[order.Count]);
        (lanes, kept, trial) = (new int[order.Count][], new int[order.Count][], new int[order.Count][]);
        (spareA, spareB) = (new int[size], new int[size]);
        for (var i = 0; i < order.Count; i++)
        {
            (lanes[i], kept[i], counts[i]) = (new int[size], new int[size], order[i].Count);
            order[i].ToArray().CopyTo(lanes[i], 0);
        }

        Cost = times.Remember(0, lanes, counts);
        Keep();
    }

    public int Lanes => lanes.Length;

    public double Cost { get; private set; }

    public IReadOnlyList<IReadOnlyList<int>> Order => [.. lanes.Select((l, i) => l.Take(counts[i]).ToArray())];

    public int Count(int lane) => counts[lane];

    public double CostAfter(in Exchange exchange, double limit)
    {
        Try(exchange);
        return times.CostFrom(StepOf(exchange), trial, tryCounts, limit);
    }

    public double MoreChanging(in Exchange x)
    {
        var (endA, endB) = (x.A + x.LengthA, x.B + x.LengthB);
        return x.LaneA == x.LaneB
            ? Changing(x.LaneA, x.A, endB, (x.LaneB, x.B, endB), (x.LaneA, endA, x.B), (x.LaneA, x.A, endA))
            : Changing(x.LaneA, x.A, endA, (x.LaneB, x.B, endB)) + Changing(x.LaneB, x.B, endB, (x.LaneA, x.A, endA));
    }

    public void Make(in Exchange exchange)
    {
        Try(exchange);
        var step = StepOf(exchange);
        (spareA, trial[exchange.LaneA], lanes[exchange.LaneA]) = (lanes[exchange.LaneA], spareA, trial[exchange.LaneA]);
        if (exchange.LaneB != exchange.LaneA)
        {
            (spareB, lanes[exchange.LaneB]) = (lanes[exchange.LaneB], trial[exchange.LaneB]);
        }

        tryCounts.CopyTo(counts, 0);
        Cost = times.Remember(step, lanes, counts);
    }

    public void Keep()
    {
        for (var i = 0; i < lanes.Length; i++)
        {
            Array.Copy(lanes[i], kept[i], counts[i]);
        }

        counts.CopyTo(keptCounts, 0);
    }

    public void GoBack()
    {
        for (var i = 0; i < lanes.Length; i++)
        {
            Array.Copy(kept[i], lanes[i], keptCounts[i]);
        }

        keptCounts.CopyTo(counts, 0);
        Cost = times.Remember(0, lanes, counts);
    }

    /// <summary>How much more changing there is when these stretches stand in a part of a lane. Between the runs of one stretch
    /// there is the same, or nearly so on another printer.</summary>
    private double Changing(int lane, int from, int to, params ReadOnlySpan<(int Lane, int From, int To)> stretches)
    {
        var last = Before(lane, from);
        double more = 0;
        foreach (var (of, begin, end) in stretches)
        {
            if (begin < end)
            {
                var first = lanes[of][begin];
                more += changes.Between(lane, last, first) - changes.Between(of, Before(of, begin), first);
                last = lanes[of][end - 1];
            }
        }

        return to == counts[lane] ? more : more + changes.Between(lane, last, lanes[lane][to]) - changes.Between(lane, Before(lane, to), lanes[lane][to]);
    }

    private int Before(int lane, int at) => at == 0 ? DayChanges.Morning : lanes[lane][at - 1];

    private int StepOf(in Exchange x) => Math.Min(times.StepAt(x.LaneA, x.A), times.StepAt(x.LaneB, x.B));

    private void Try(in Exchange x)
    {
        lanes.CopyTo(trial, 0);
        counts.CopyTo(tryCounts, 0);
        var (a, b) = (lanes[x.LaneA], lanes[x.LaneB]);
        var (endA, endB) = (x.A + x.LengthA, x.B + x.LengthB);
        if (x.LaneA == x.LaneB)
        {
            var to = 0;
            Append(spareA, ref to, a, 0, x.A);
            Append(spareA, ref to, a, x.B, endB);
            Append(spareA, ref to, a, endA, x.B);
            Append(spareA, ref to, a, x.A, endA);
            Append(spareA, ref to, a, endB, counts[x.LaneA]);
            trial[x.LaneA] = spareA;
            return;
        }

        var (toA, toB) = (0, 0);
        Append(spareA, ref toA, a, 0, x.A);
        Append(spareA, ref toA, b, x.B, endB);
        Append(spareA, ref toA, a, endA, counts[x.LaneA]);
        Append(spareB, ref toB, b, 0, x.B);
        Append(spareB, ref toB, a, x.A, endA);
        Append(spareB, ref toB, b, endB, counts[x.LaneB]);
        (trial[x.LaneA], trial[x.LaneB], tryCounts[x.LaneA], tryCounts[x.LaneB]) = (spareA, spareB, toA, toB);
    }

    private static void Append(int[] to, ref int at, int[] from, int begin, int end)
    {
        Array.Copy(from, begin, to, at, end - begin);
        at += end - begin;
    }
}
