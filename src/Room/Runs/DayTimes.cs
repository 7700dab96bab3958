namespace Goodsheet.Room.Runs;

/// <summary>Gives an order of runs its times: each printer takes its runs in turn, as early as people and room to dry allow.</summary>
/// <remarks>
/// A change of black or paper wants a person throughout, within opening hours. Feeding by hand keeps one person at the
/// printer and rests while the room is closed. A stack or a roll prints on alone, also past closing. A print that waits for
/// its test strip is begun when somebody has looked at that; a printer whose next run waits lets the others go before.
/// </remarks>
internal sealed class DayTimes(DayWork work)
{
    private readonly RunToPlan[] runs = [.. work.Runs];
    private readonly PrinterDay[] printers = [.. work.Printers];
    private readonly double[][] minutesOn = [.. work.Printers.Select((_, lane) => work.Runs.Select(r => r.MinutesOn[lane] ?? double.NaN).ToArray())];
    private readonly double[] least = Least(work);
    private readonly OpenHours hours = new(work.Rules.Hours);
    private readonly DayRules rules = work.Rules;
    private readonly PlanPrices prices = work.Rules.Prices;
    private readonly DayState now = new(work), spare = new(work);
    private readonly List<DayState> steps = [new(work)];
    private readonly int[][] stepOf = [.. work.Printers.Select(_ => new int[work.Runs.Count])];

    /// <summary>The cost of an order, infinity as soon as it is over the limit or a printer cannot print what it is given.</summary>
    public double Cost(int[][] lanes, int[] counts, double limit, List<DaySlot>? slots = null)
    {
        now.Begin(printers, rules, least.Sum());
        LeaveOut(lanes, counts);
        return Go(now, lanes, counts, limit, slots);
    }

    /// <summary>The cost of an order that is like the one last remembered before a step.</summary>
    /// <param name="step">From <see cref="StepAt"/>.</param>
    public double CostFrom(int step, int[][] lanes, int[] counts, double limit)
    {
        spare.CopyFrom(steps[step]);
        return Go(spare, lanes, counts, limit, null);
    }

    /// <summary>The cost of an order, of which each step is remembered, so that a like order need not be timed from the morning on.</summary>
    public double Remember(int step, int[][] lanes, int[] counts)
    {
        if (step == 0)
        {
            steps[0].Begin(printers, rules, least.Sum());
        }

        now.CopyFrom(steps[step]);
        for (var lane = Next(now, lanes, counts); lane >= 0; lane = Next(now, lanes, counts))
        {
            stepOf[lane][now.At[lane]] = step;
            if (!Serve(now, lane, lanes[lane], null))
            {
                return double.PositiveInfinity;
            }

            if (++step == steps.Count)
            {
                steps.Add(new(work));
            }

            steps[step].CopyFrom(now);
        }

        return IsWhole(now, counts) ? now.Cost : double.PositiveInfinity;
    }

    /// <summary>The first step that could differ when a lane of the order remembered changes from a place on.</summary>
    public int StepAt(int lane, int place) => place == 0 ? 0 : stepOf[lane][place - 1] + 1;

    private double Go(DayState state, int[][] lanes, int[] counts, double limit, List<DaySlot>? slots)
    {
        for (var lane = Next(state, lanes, counts); lane >= 0; lane = Next(state, lanes, counts))
        {
            if (!Serve(state, lane, lanes[lane], slots) || state.Cost + state.Rest > limit)
            {
                return double.PositiveInfinity;
            }
        }

        return IsWhole(state, counts) ? state.Cost : double.PositiveInfinity;
    }

    /// <summary>What an order that is still being put together lacks keeps nobody waiting.</summary>
    private void LeaveOut(int[][] lanes, int[] counts)
    {
        if (now.Ended.Length == 0)
        {
            return;
        }

        Array.Fill(now.Ended, double.NegativeInfinity);
        for (var lane = 0; lane < counts.Length; lane++)
        {
            foreach (var run in lanes[lane].AsSpan(0, counts[lane]))
            {
                now.Ended[run] = double.PositiveInfinity;
            }
        }
    }

    /// <summary>False when printers wait for one another's test strips for ever.</summary>
    private static bool IsWhole(DayState state, int[] counts) => state.Ended.Length == 0 || state.At.AsSpan(0, counts.Length).SequenceEqual(counts);

    /// <summary>When what a run waits for has been looked at: infinity while it is not printed.</summary>
    private double Looked(DayState state, RunToPlan run)
    {
        var looked = double.NegativeInfinity;
        foreach (var before in run.After)
        {
            looked = Math.Max(looked, state.Ended[before]);
        }

        return double.IsFinite(looked) ? hours.Open(looked + run.AfterMinutes, 0) : looked;
    }

    /// <summary>Gives the next run of a lane its times; false if its printer cannot print it.</summary>
    private bool Serve(DayState state, int lane, int[] order, List<DaySlot>? slots)
    {
        var index = order[state.At[lane]++];
        var run = runs[index];
        state.TakeDown(state.Free[lane]);
        var minutes = minutesOn[lane][index];
        if (double.IsNaN(minutes))
        {
            return false;
        }

        var printer = printers[lane];
        var (blackMinutes, ml) = printer.Change(state.Black[lane], run.Black);
        var paperMinutes = state.Paper[lane] == run.Paper ? 0 : printer.MinutesPerPaperChange;
        var change = blackMinutes + paperMinutes;
        var ready = state.Ended.Length == 0 ? run.Ready : Math.Max(run.Ready, Looked(state, run));
        var (from, end) = Place(state, run, Math.Max(state.Free[lane], ready), change, minutes);
        var dry = end + run.DryMinutes;
        var late = Math.Max(0, dry - run.Due);
        state.Cost += (late * run.PerMinuteLate) + (ml * prices.PerMl) + ((change + minutes) * prices.PerMinute) + (end * prices.PerMinuteWaiting);
        state.Rest -= least[index];
        slots?.Add(new(index, lane, from, from + change, end, dry, blackMinutes, ml, paperMinutes, late));
        (state.Free[lane], state.Black[lane], state.Paper[lane]) = (end, run.Black, run.Paper);
        if (state.Ended.Length > 0)
        {
            state.Ended[index] = end;
        }

        return true;
    }

    /// <summary>What each run costs at the least, wherever and whenever it is printed. A hair less, so that rounding cannot refuse an order.</summary>
    private static double[] Least(DayWork work)
    {
        var first = work.Printers.Count == 0 ? 0 : work.Printers.Min(p => p.FreeAt);
        return [.. work.Runs.Select(run =>
        {
            var minutes = run.MinutesOn.Min() ?? 0;
            var end = Math.Max(first, run.Ready) + minutes;
            var late = Math.Max(0, end + run.DryMinutes - run.Due) * run.PerMinuteLate;
            return (1 - 1e-9) * (late + (minutes * work.Rules.Prices.PerMinute) + (Math.Max(0, end) * work.Rules.Prices.PerMinuteWaiting));
        })];
    }

    private int Next(DayState state, int[][] lanes, int[] counts)
    {
        var next = -1;
        for (var i = 0; i < counts.Length; i++)
        {
            if (state.At[i] < counts[i] && (next < 0 || state.Free[i] < state.Free[next])
                && (state.Ended.Length == 0 || Looked(state, runs[lanes[i][state.At[i]]]) < double.PositiveInfinity))
            {
                next = i;
            }
        }

        return next;
    }

    private (double From, double End) Place(DayState state, RunToPlan run, double earliest, double change, double minutes)
    {
        var hands = state.Hands;
        var hand = -1;
        if (run.KeepsAPerson)
        {
            hand = 0;
            for (var i = 1; i < hands.Length; i++)
            {
                hand = hands[i] < hands[hand] ? i : hand;
            }

            earliest = Math.Max(earliest, hands[hand]);
        }

        while (true)
        {
            var from = hours.Open(earliest, change);
            var end = run.KeepsAPerson ? hours.Worked(from + change, minutes) : from + change + minutes;
            if (Full(state, run, end) is { } until)
            {
                earliest = Math.Max(from + (until - end), earliest + 1);
                continue;
            }

            if (hand >= 0)
            {
                hands[hand] = end;
            }

            if (run.DryMinutes > 0)
            {
                state.Drying.Add((end, end + run.DryMinutes, Math.Min(run.DryPlaces, rules.DryPlaces)));
            }

            return (from, end);
        }
    }

    /// <summary>When the first of what is in the way is off the table; none if there is room.</summary>
    private double? Full(DayState state, RunToPlan run, double end)
    {
        var all = rules.DryPlaces;
        if (all == 0 || run.DryMinutes <= 0)
        {
            return null;
        }

        var (used, first, dry) = (Math.Min(run.DryPlaces, all), double.PositiveInfinity, end + run.DryMinutes);
        foreach (var (from, until, places) in state.Drying)
        {
            if (from < dry && until > end)
            {
                used += places;
                first = Math.Min(first, until);
            }
        }

        return used > all ? first : null;
    }
}
