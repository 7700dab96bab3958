namespace Goodsheet.Room.Runs;

/// <summary>Orders to begin the search with.</summary>
internal static class DayStart
{
    private const double Patience = 2;      // k1 and k2 of the rule; the usual middle of their ranges, from memory
    private const double SetupCare = 0.5;

    /// <summary>By apparent tardiness cost with setups: the printer that is free first takes the run that presses most.</summary>
    /// <remarks>Lee, Bhaskaran, Pinedo, IIE Transactions 29, 1997, from memory.</remarks>
    public static IReadOnlyList<IReadOnlyList<int>> Ordered(DayWork work)
    {
        var lanes = work.Printers.Select(_ => new List<int>()).ToArray();
        var (free, black, paper) = (work.Printers.Select(p => p.FreeAt).ToArray(), work.Printers.Select(p => p.Black).ToArray(), work.Printers.Select(p => p.Paper).ToArray());
        var open = Enumerable.Range(0, work.Runs.Count).ToList();
        var due = Due(work);
        var mean = Math.Max(1, work.Runs.Select(r => r.MinutesOn.Min() ?? 0).DefaultIfEmpty().Average());
        var setup = Math.Max(1, work.Printers.Average(p => p.MinutesPerPaperChange + p.MinutesToMatte));
        while (open.Count > 0)
        {
            var may = open.FindAll(r => !work.Runs[r].After.Any(open.Contains)); // a strip goes before its print
            var lane = Enumerable.Range(0, lanes.Length).Where(l => may.Exists(r => work.Runs[r].MinutesOn[l] is not null)).MinBy(l => free[l]);
            var next = may.Where(r => work.Runs[r].MinutesOn[lane] is not null).MaxBy(r => Presses(r, lane));
            var run = work.Runs[next];
            free[lane] = Math.Max(free[lane], run.Ready) + Change(run, lane) + run.MinutesOn[lane]!.Value;
            (black[lane], paper[lane]) = (run.Black, run.Paper);
            lanes[lane].Add(next);
            open.Remove(next);
        }

        return lanes;

        double Change(RunToPlan run, int lane) =>
            work.Printers[lane].Change(black[lane], run.Black).Minutes + (paper[lane] == run.Paper ? 0 : work.Printers[lane].MinutesPerPaperChange);

        double Presses(int at, int lane)
        {
            var run = work.Runs[at];
            var minutes = Math.Max(1, run.MinutesOn[lane]!.Value);
            var slack = double.IsFinite(due[at]) ? Math.Max(due[at] - run.DryMinutes - minutes - free[lane], 0) : 1e6;
            return (Math.Log(Math.Max(run.PerMinuteLate, 1e-6) / minutes)) - (slack / (Patience * mean)) - (Change(run, lane) / (SetupCare * setup));
        }
    }

    // A test strip presses as what waits for it does.
    private static double[] Due(DayWork work)
    {
        var due = work.Runs.Select(r => r.Due).ToArray();
        foreach (var run in work.Runs)
        {
            foreach (var before in run.After)
            {
                due[before] = Math.Min(due[before], run.Due - run.DryMinutes - (run.MinutesOn.Min() ?? 0) - run.AfterMinutes);
            }
        }

        return due;
    }

    /// <summary>An order at hand, without what is gone, and with each new run where it costs least.</summary>
    public static IReadOnlyList<IReadOnlyList<int>> Filled(DayWork work, DayTimes times, IReadOnlyList<IReadOnlyList<int>> present)
    {
        var lanes = work.Printers.Select((_, lane) => lane < present.Count
            ? present[lane].Where(r => work.Runs[r].MinutesOn[lane] is not null).Distinct().ToList() : []).ToArray();
        var due = Due(work);
        foreach (var run in Enumerable.Range(0, work.Runs.Count).Except(lanes.SelectMany(l => l)).OrderBy(r => due[r]).ToArray())
        {
            var places = lanes.SelectMany((l, lane) => Enumerable.Range(0, l.Count + 1).Select(at => (lane, at)));
            var (best, where) = places.Where(p => work.Runs[run].MinutesOn[p.lane] is not null).MinBy(p => CostWith(p.lane, p.at));
            lanes[best].Insert(where, run);

            double CostWith(int lane, int at)
            {
                lanes[lane].Insert(at, run);
                var cost = times.Cost([.. lanes.Select(l => l.ToArray())], [.. lanes.Select(l => l.Count)], double.PositiveInfinity);
                lanes[lane].RemoveAt(at);
                return cost;
            }
        }

        return lanes;
    }
}
