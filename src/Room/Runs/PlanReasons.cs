namespace Goodsheet.Room.Runs;

/// <summary>Why a plan is as it is, each held against what else could have been done.</summary>
public abstract record PlanReason(DaySlot Slot);

/// <summary>A black change, what it serves, and what waiting with it would bring.</summary>
/// <param name="Slot">The run it is made for.</param>
/// <param name="Serves">Runs in a row that print with this black.</param>
/// <param name="Else">The plan in which these runs wait until those with the black before are done; none when none follow, or they cannot wait.</param>
/// <param name="CannotWait">What follows waits for a test strip among them.</param>
public sealed record BlackChangeReason(DaySlot Slot, int Serves, Difference? Else, bool CannotWait = false) : PlanReason(Slot);

/// <summary>A run that follows another on the same paper, so that nothing is loaded anew.</summary>
public sealed record SamePaperReason(DaySlot Slot, DaySlot Before, double MinutesSaved) : PlanReason(Slot);

/// <summary>A run that begins when its test strip has been looked at.</summary>
/// <param name="Slot">The run.</param>
/// <param name="Strip">The last of its strips.</param>
public sealed record StripReason(DaySlot Slot, DaySlot Strip) : PlanReason(Slot);

/// <summary>A run that will be late, and how late it would be were it first in line.</summary>
public sealed record LateReason(DaySlot Slot, double LateIfFirst) : PlanReason(Slot);

/// <summary>How another plan differs: positive is more than in this one.</summary>
public sealed record Difference(int LateRuns, double LateMinutes, double Ml, double Minutes, int BlackChanges);

public static class PlanReasons
{
    public static IReadOnlyList<PlanReason> Of(DayPlan plan)
    {
        var reasons = new List<PlanReason>();
        foreach (var lane in plan.Lanes)
        {
            for (var i = 0; i < lane.Count; i++)
            {
                var slot = lane[i];
                if (slot.BlackMinutes > 0 || slot.BlackMl > 0)
                {
                    reasons.Add(BlackChange(plan, lane, i));
                }

                if (i > 0 && slot.PaperMinutes == 0 && plan.Work.Printers[slot.Printer].MinutesPerPaperChange > 0)
                {
                    reasons.Add(new SamePaperReason(slot, lane[i - 1], plan.Work.Printers[slot.Printer].MinutesPerPaperChange));
                }

                var strips = plan.Work.Runs[slot.Run].After;
                if (strips.Count > 0)
                {
                    reasons.Add(new StripReason(slot, plan.Slots.Where(s => strips.Contains(s.Run)).MaxBy(s => s.Ends)!));
                }

                if (slot.Late > 0)
                {
                    int[] begin = [.. lane.Select(s => s.Run).Where(strips.Contains), slot.Run];
                    var first = DayPlanner.Timed(plan.Work, With(plan, slot.Printer, [.. begin, .. lane.Select(s => s.Run).Except(begin)]));
                    reasons.Add(new LateReason(slot, first.Slots.FirstOrDefault(s => s.Run == slot.Run)?.Late ?? slot.Late));
                }
            }
        }

        return reasons;
    }

    private static BlackChangeReason BlackChange(DayPlan plan, IReadOnlyList<DaySlot> lane, int at)
    {
        var runs = plan.Work.Runs;
        var black = runs[lane[at].Run].Black;
        var end = at;
        while (end < lane.Count && runs[lane[end].Run].Black == black)
        {
            end++;
        }

        if (end == lane.Count)
        {
            return new(lane[at], end - at, null);
        }

        var after = end;
        while (after < lane.Count && runs[lane[after].Run].Black != black)
        {
            after++;
        }

        var order = lane.Select(s => s.Run).ToArray();
        var other = DayPlanner.Timed(plan.Work, With(plan, lane[at].Printer, [.. order[..at], .. order[end..after], .. order[at..end], .. order[after..]]));
        return !double.IsFinite(other.Cost) ? new(lane[at], end - at, null, CannotWait: true) : new(lane[at], end - at, new(
            other.LateRuns - plan.LateRuns, other.LateMinutes - plan.LateMinutes, other.Ml - plan.Ml, other.ChangeMinutes - plan.ChangeMinutes,
            other.BlackChanges - plan.BlackChanges));
    }

    private static IReadOnlyList<IReadOnlyList<int>> With(DayPlan plan, int printer, int[] order) =>
        [.. plan.Order.Select((l, i) => i == printer ? order : l)];
}
