using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.Room.Tests.Runs;

/// <summary>Takes a finished plan apart by its rules alone, sharing no code with what made it.</summary>
internal static class PlanVerifier
{
    private const double Rounding = 1e-6;

    public static IReadOnlyList<string> Faults(DayPlan plan)
    {
        var faults = new List<string>();
        var (work, slots) = (plan.Work, plan.Slots.ToArray());
        Must(slots.Select(s => s.Run).Order().SequenceEqual(Enumerable.Range(0, work.Runs.Count)), "every run is there once");
        foreach (var lane in plan.Lanes)
        {
            for (var i = 0; i < lane.Count; i++)
            {
                var (slot, run, printer) = (lane[i], work.Runs[lane[i].Run], work.Printers[lane[i].Printer]);
                var (black, paper, free) = i == 0 ? (printer.Black, printer.Paper, printer.FreeAt) : (work.Runs[lane[i - 1].Run].Black, work.Runs[lane[i - 1].Run].Paper, lane[i - 1].Ends);
                Must(slot.ChangeAt >= free - Rounding && slot.ChangeAt >= run.Ready - Rounding, "nothing begins before printer and run are ready");
                foreach (var strip in slots.Where(s => run.After.Contains(s.Run)))
                {
                    var looked = strip.Ends + run.AfterMinutes;
                    Must(slot.ChangeAt >= looked - Rounding, "a print is not begun before its test strip was looked at");
                    Must(work.Rules.Hours.Any(h => looked >= h.From && looked < h.To) || slot.ChangeAt > looked || looked >= work.Rules.Hours[^1].To, "somebody is there to look at it");
                }

                var (change, ml) = black == run.Black ? (0, 0) : run.Black is BlackInk.Matte ? (printer.MinutesToMatte, printer.MlToMatte) : (printer.MinutesToPhoto, printer.MlToPhoto);
                change += paper == run.Paper ? 0 : printer.MinutesPerPaperChange;
                Must(Math.Abs(slot.Begins - slot.ChangeAt - change) < Rounding && slot.BlackMl == ml, "changes take what they take");
                Must(work.Rules.Hours.Any(h => slot.ChangeAt >= h.From && slot.Begins <= h.To + Rounding) || slot.ChangeAt >= work.Rules.Hours[^1].To, "changes are made while somebody is there");
                var worked = run.KeepsAPerson ? work.Rules.Hours.Sum(h => Math.Max(0, Math.Min(slot.Ends, h.To) - Math.Max(slot.Begins, h.From))) + Math.Max(0, slot.Ends - Math.Max(slot.Begins, work.Rules.Hours[^1].To)) : slot.Ends - slot.Begins;
                Must(Math.Abs(worked - run.MinutesOn[slot.Printer]!.Value) < Rounding, "a run prints as long as it takes");
                Must(Math.Abs(slot.Late - Math.Max(0, slot.Ends + run.DryMinutes - run.Due)) < Rounding, "late is dry against due");
            }
        }

        foreach (var slot in slots)
        {
            var lying = slots.Where(s => s.Ends <= slot.Ends && s.Dry > slot.Ends).Sum(s => Math.Min(work.Rules.DryPlaces, work.Runs[s.Run].DryPlaces)) + work.Rules.Drying.Where(d => d.Until > slot.Ends).Sum(d => d.Places);
            Must(slot.Dry == slot.Ends || lying <= work.Rules.DryPlaces, "the drying table holds what lies on it");
            Must(slots.Count(s => work.Runs[s.Run].KeepsAPerson && s.Begins <= slot.Begins && s.Ends > slot.Begins) <= work.Rules.People, "nobody feeds two printers at once");
        }

        return faults;

        void Must(bool holds, string rule)
        {
            if (!holds)
            {
                faults.Add(rule);
            }
        }
    }
}

/// <summary>The least cost over every order on every printer.</summary>
internal static class EveryOrder
{
    public static double Least(DayWork work)
    {
        var least = double.PositiveInfinity;
        var lanes = work.Printers.Select(_ => new List<int>()).ToArray();
        Put(0);
        return least;

        // Each run is put at every place of every printer's list in turn: that meets each order once.
        void Put(int run)
        {
            if (run == work.Runs.Count)
            {
                least = Math.Min(least, DayPlanner.Timed(work, lanes).Cost);
                return;
            }

            foreach (var lane in lanes)
            {
                for (var at = 0; at <= lane.Count; at++)
                {
                    lane.Insert(at, run);
                    Put(run + 1);
                    lane.RemoveAt(at);
                }
            }
        }
    }
}
