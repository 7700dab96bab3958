namespace Goodsheet.Room.Runs;

/// <summary>Gives an order of runs its times: each printer takes its runs in turn, as early as people and room to dry allow.</summary>
/// <remarks>
/// A change of black or paper wants a person throughout, within opening hours. Feeding by hand keeps one person at the
/// printer and rests while the room is closed. A stack or a roll prints on alone, also past closing.
/// </remarks>
internal sealed class DayTimes(DayWork work)
{
    private readonly RunToPlan[] runs = [.. work.Runs];
    private readonly PrinterDay[] printers = [.. work.Printers];
    private readonly double?[][] minutesOn = [.. work.Printers.Select((_, lane) => work.Runs.Select(r => r.MinutesOn[lane]).ToArray())];
    private readonly (double From, double To)[] hours = [.. work.Rules.Hours];
    private readonly DayRules rules = work.Rules;
    private readonly double[] free = new double[work.Printers.Count], hands = new double[Math.Max(1, work.Rules.People)];
    private readonly Papers.BlackInk[] black = new Papers.BlackInk[work.Printers.Count];
    private readonly string?[] paper = new string?[work.Printers.Count];
    private readonly int[] at = new int[work.Printers.Count];
    private readonly List<(double From, double Until, int Places)> drying = [];

    /// <summary>The cost of an order, infinity as soon as it is over the limit or a printer cannot print what it is given.</summary>
    public double Cost(int[][] lanes, int[] counts, double limit, List<DaySlot>? slots = null)
    {
        Begin();
        var cost = 0.0;
        for (var lane = Next(counts); lane >= 0; lane = Next(counts))
        {
            var index = lanes[lane][at[lane]++];
            var run = runs[index];
            TakeDown(free[lane]);
            if (minutesOn[lane][index] is not { } minutes)
            {
                return double.PositiveInfinity;
            }

            var printer = printers[lane];
            var (blackMinutes, ml) = printer.Change(black[lane], run.Black);
            var paperMinutes = paper[lane] == run.Paper ? 0 : printer.MinutesPerPaperChange;
            var change = blackMinutes + paperMinutes;
            var (from, end) = Place(run, Math.Max(free[lane], run.Ready), change, minutes);
            var dry = end + run.DryMinutes;
            var late = Math.Max(0, dry - run.Due);
            var prices = rules.Prices;
            cost += (late * run.PerMinuteLate) + (ml * prices.PerMl) + ((change + minutes) * prices.PerMinute) + (end * prices.PerMinuteWaiting);
            if (cost > limit)
            {
                return double.PositiveInfinity;
            }

            slots?.Add(new(index, lane, from, from + change, end, dry, blackMinutes, ml, paperMinutes, late));
            (free[lane], black[lane], paper[lane]) = (end, run.Black, run.Paper);
        }

        return cost;
    }

    private void Begin()
    {
        drying.Clear();
        foreach (var (until, places) in rules.Drying)
        {
            drying.Add((0, until, places));
        }

        Array.Clear(hands);
        for (var i = 0; i < free.Length; i++)
        {
            (free[i], black[i], paper[i], at[i]) = (printers[i].FreeAt, printers[i].Black, printers[i].Paper, 0);
        }
    }

    /// <summary>The printer that is free first is served first, so what is dry by then is in nobody's way again.</summary>
    private void TakeDown(double now)
    {
        for (var i = drying.Count - 1; i >= 0; i--)
        {
            if (drying[i].Until <= now)
            {
                drying[i] = drying[^1];
                drying.RemoveAt(drying.Count - 1);
            }
        }
    }

    private int Next(int[] counts)
    {
        var next = -1;
        for (var i = 0; i < free.Length; i++)
        {
            if (at[i] < counts[i] && (next < 0 || free[i] < free[next]))
            {
                next = i;
            }
        }

        return next;
    }

    private (double From, double End) Place(RunToPlan run, double earliest, double change, double minutes)
    {
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
            var from = Open(earliest, change);
            var end = run.KeepsAPerson ? Worked(from + change, minutes) : from + change + minutes;
            if (Full(run, end) is { } until)
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
                drying.Add((end, end + run.DryMinutes, Math.Min(run.DryPlaces, rules.DryPlaces)));
            }

            return (from, end);
        }
    }

    /// <summary>When the first of what is in the way is off the table; none if there is room.</summary>
    private double? Full(RunToPlan run, double end)
    {
        var all = rules.DryPlaces;
        if (all == 0 || run.DryMinutes <= 0)
        {
            return null;
        }

        var (used, first, dry) = (Math.Min(run.DryPlaces, all), double.PositiveInfinity, end + run.DryMinutes);
        foreach (var (from, until, places) in drying)
        {
            if (from < dry && until > end)
            {
                used += places;
                first = Math.Min(first, until);
            }
        }

        return used > all ? first : null;
    }

    /// <summary>The first instant from which a person is there for so long.</summary>
    private double Open(double earliest, double minutes)
    {
        foreach (var (from, to) in hours)
        {
            var begin = Math.Max(earliest, from);
            if (begin < to && (begin + minutes <= to || minutes > to - from))
            {
                return begin;
            }
        }

        return hours.Length == 0 ? earliest : Math.Max(earliest, hours[^1].To);
    }

    /// <summary>When so many minutes of work by hand are done, resting while the room is closed.</summary>
    private double Worked(double from, double minutes)
    {
        foreach (var (open, close) in hours)
        {
            if (from >= close)
            {
                continue;
            }

            from = Math.Max(from, open);
            if (from + minutes <= close)
            {
                return from + minutes;
            }

            minutes -= close - from;
            from = close;
        }

        return from + minutes;
    }
}
