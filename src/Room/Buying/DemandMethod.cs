namespace Goodsheet.Room.Buying;

/// <summary>A way to say from past weeks what a coming week will want.</summary>
public enum DemandMethod
{
    /// <summary>The average of all weeks that are looked at.</summary>
    HalfYear,

    /// <summary>The average of the last eight weeks.</summary>
    EightWeeks,

    /// <summary>Each week draws the figure a fifth of the way.</summary>
    Smoothed,

    /// <summary>For what is wanted now and then: size and interval apart, the bias taken off.</summary>
    SyntetosBoylan,

    /// <summary>For what is wanted now and then and may fade: size and chance apart.</summary>
    TeunterSyntetosBabai,

    /// <summary>Level and trend, each drawn by what comes.</summary>
    Trend,
}

/// <summary>What each method would have said, week by week, had it been asked then: how far it was out.</summary>
/// <remarks>
/// Errors are divided by those of saying "as last week" over the same series, so that items compare: MASE, Hyndman, Koehler, Int. J.
/// Forecasting 22(4), 2006, with the plain errors; RMSSE, Makridakis, Spiliotis, Assimakopoulos, Int. J. Forecasting 38(4), 2022, with
/// their squares. Both from memory. The squares decide: by plain errors an item that is wanted now and then is best told as never.
/// </remarks>
/// <param name="Mase">Below 1 is better than "as last week".</param>
/// <param name="Rmsse">Below 1 is better than "as last week".</param>
public sealed record BackTest(DemandMethod Method, double Mase, double Rmsse)
{
    /// <summary>Fewer weeks than this decide nothing.</summary>
    public const int LeastWeeks = 12;

    internal const int Recent = 8;
    internal const double Fifth = 0.2;
    internal const double Tenth = 0.1;

    private static readonly DemandMethod[] Methods = Enum.GetValues<DemandMethod>();

    /// <summary>Another method has to be so much nearer than the plain average, or luck decides; common practice, no source.</summary>
    private const double Clearly = 0.95;

    /// <summary>Of each method; none when there are too few weeks or every week is alike.</summary>
    public static IReadOnlyList<BackTest> Of(ReadOnlySpan<double> weeks)
    {
        if (weeks.Length < LeastWeeks)
        {
            return [];
        }

        var (plain, squares) = (0.0, 0.0);
        for (var week = 1; week < weeks.Length; week++)
        {
            var step = weeks[week] - weeks[week - 1];
            (plain, squares) = (plain + Math.Abs(step), squares + (step * step));
        }

        if (squares == 0)
        {
            return [];
        }

        var tests = new List<BackTest>();
        foreach (var method in Methods)
        {
            var (absolute, squared) = (0.0, 0.0);
            for (var week = Recent; week < weeks.Length; week++)
            {
                var off = weeks[week] - Weekly(method, weeks[..week]);
                (absolute, squared) = (absolute + Math.Abs(off), squared + (off * off));
            }

            var (tried, steps) = (weeks.Length - Recent, weeks.Length - 1);
            tests.Add(new(method, absolute / tried / (plain / steps), Math.Sqrt(squared / tried / (squares / steps))));
        }

        return tests;
    }

    /// <summary>The method that was clearly nearest, else the plain average.</summary>
    public static DemandMethod Best(IReadOnlyList<BackTest> tests) => tests.MinBy(t => t.Rmsse) is { } best
        && best.Rmsse < Clearly * tests.Single(t => t.Method == DemandMethod.HalfYear).Rmsse ? best.Method : DemandMethod.HalfYear;

    /// <summary>What the method says the next week wants.</summary>
    internal static double Weekly(DemandMethod method, ReadOnlySpan<double> weeks) => method switch
    {
        DemandMethod.EightWeeks => Average(weeks[Math.Max(0, weeks.Length - Recent)..]),
        DemandMethod.Smoothed => Smoothed(weeks),
        DemandMethod.Trend => Trend(weeks),
        DemandMethod.SyntetosBoylan => SporadicDemand.SyntetosBoylan(weeks, Tenth),
        DemandMethod.TeunterSyntetosBabai => SporadicDemand.TeunterSyntetosBabai(weeks, Tenth, Tenth),
        _ => Average(weeks),
    };

    /// <summary>So many days of the past speak in the figure.</summary>
    internal static double SpeakingDays(DemandMethod method, int days) => Math.Min(days, method switch
    {
        DemandMethod.EightWeeks => 7 * Recent,
        DemandMethod.Smoothed or DemandMethod.Trend => 7 * (2 - Fifth) / Fifth,
        DemandMethod.SyntetosBoylan or DemandMethod.TeunterSyntetosBabai => 7 * (2 - Tenth) / Tenth,
        _ => days,
    });

    private static double Average(ReadOnlySpan<double> weeks)
    {
        var sum = 0.0;
        foreach (var week in weeks)
        {
            sum += week;
        }

        return weeks.IsEmpty ? 0 : sum / weeks.Length;
    }

    /// <summary>Holt, 1957, from memory: a level drawn a fifth of the way, a trend a tenth; never below 0.</summary>
    private static double Trend(ReadOnlySpan<double> weeks)
    {
        var (level, trend) = (weeks.IsEmpty ? 0 : weeks[0], 0.0);
        for (var week = 1; week < weeks.Length; week++)
        {
            var before = level;
            level += trend + (Math.Max(Fifth, 1.0 / (week + 1)) * (weeks[week] - level - trend));
            trend += Tenth * (level - before - trend);
        }

        return Math.Max(0, level + trend);
    }

    private static double Smoothed(ReadOnlySpan<double> weeks)
    {
        var level = weeks.IsEmpty ? 0 : weeks[0];
        for (var week = 1; week < weeks.Length; week++)
        {
            level += Math.Max(Fifth, 1.0 / (week + 1)) * (weeks[week] - level);
        }

        return level;
    }
}
