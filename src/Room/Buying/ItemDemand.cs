namespace Goodsheet.Room.Buying;

/// <summary>How an item goes: its rate, how sure that is, how it spreads over the week, and by which method that was reckoned.</summary>
/// <param name="PerDay">Of an average day, in sheets or mm.</param>
/// <param name="VariancePerDay">Of one day about what is usual for it.</param>
/// <param name="RateVariance">Of the rate itself, since it was reckoned from few days.</param>
public sealed record ItemDemand(double PerDay, double VariancePerDay, double RateVariance, WeekShape Week, DemandMethod Method)
{
    private const double NineInTen = 1.6449; // of a normal distribution, both sides

    public static ItemDemand None { get; } = new(0, 0, 0, WeekShape.Flat, DemandMethod.HalfYear);

    /// <summary>The rate lies between these in nine cases of ten.</summary>
    public (double Low, double High) Between
    {
        get
        {
            var half = NineInTen * Math.Sqrt(RateVariance);
            return (Math.Max(0, PerDay - half), PerDay + half);
        }
    }

    /// <summary>By the method that would have been nearest so far.</summary>
    public static ItemDemand Of(ReadOnlySpan<double> days, DateOnly last) => Of(days, last, BackTest.Best(BackTest.Of(Weeks(days))));

    /// <param name="days">What was wanted day by day, the oldest first; below 0 when more came back than went.</param>
    /// <param name="last">The date of the last of them.</param>
    public static ItemDemand Of(ReadOnlySpan<double> days, DateOnly last, DemandMethod method)
    {
        if (days.Length < 2)
        {
            return None;
        }

        var sum = 0.0;
        foreach (var day in days)
        {
            sum += day;
        }

        var mean = Math.Max(0, sum / days.Length);
        if (mean == 0)
        {
            return None;
        }

        var rate = method == DemandMethod.HalfYear ? mean : Math.Max(0, BackTest.Weekly(method, Weeks(days)) / 7);
        var week = WeekShape.From(days, last);
        var (squares, weekday) = (0.0, last.DayOfWeek);
        for (var at = days.Length - 1; at >= 0; at--)
        {
            var off = days[at] - (mean * week.Of(weekday));
            squares += off * off;
            weekday = weekday == DayOfWeek.Sunday ? DayOfWeek.Saturday : weekday - 1;
        }

        // One order is as large as before when the rate is another: the variance goes with it.
        var variance = squares / (days.Length - 1) * rate / mean;
        return new(rate, variance, variance / BackTest.SpeakingDays(method, days.Length), week, method);
    }

    /// <summary>Whole weeks up to the last day, the oldest first.</summary>
    public static IReadOnlyList<double> Weeks(ReadOnlySpan<double> days)
    {
        var weeks = new double[days.Length / 7];
        var skipped = days.Length % 7;
        for (var week = 0; week < weeks.Length; week++)
        {
            foreach (var day in days.Slice(skipped + (7 * week), 7))
            {
                weeks[week] += day;
            }

            weeks[week] = Math.Max(0, weeks[week]);
        }

        return weeks;
    }
}
