namespace Goodsheet.Room.Buying;

/// <summary>What may be wanted, drawn from the room's own past: whole weeks by lot, the same week for all items, each day on its weekday.</summary>
/// <remarks>
/// Whole weeks keep what belongs together: a large job takes several papers, a Monday is a Monday. A week is drawn anew for each week
/// ahead, with replacement (the bootstrap in blocks; Künsch, Ann. Statist. 17(3), 1989, from memory).
/// </remarks>
public sealed class PastWeeks
{
    private readonly double[][] pasts;
    private readonly int weeks;

    public PastWeeks(IEnumerable<IReadOnlyList<double>> pasts)
    {
        this.pasts = [.. pasts.Select(Cleaned)];
        weeks = Math.Max(1, this.pasts.Select(p => p.Length / 7).DefaultIfEmpty(0).Max());
    }

    public DemandOfDay Ahead(int seed)
    {
        var chance = new Chance(seed);
        var week = 0;
        return (day, wanted) =>
        {
            if (day % 7 == 0)
            {
                week = 1 + chance.Below(weeks);
            }

            for (var item = 0; item < pasts.Length; item++)
            {
                var own = pasts[item].Length / 7;
                wanted[item] = own == 0 ? 0 : (long)pasts[item][^((7 * (1 + ((week - 1) % own))) - (day % 7))];
            }
        };
    }

    /// <summary>What came back is taken off the days before it, on which it went; parts of a sheet are kept for the next day.</summary>
    private static double[] Cleaned(IReadOnlyList<double> past)
    {
        var days = past.ToArray();
        var back = 0.0;
        for (var day = days.Length - 1; day >= 0; day--)
        {
            days[day] += back;
            back = Math.Min(0, days[day]);
            days[day] = Math.Max(0, days[day]);
        }

        return days;
    }
}
