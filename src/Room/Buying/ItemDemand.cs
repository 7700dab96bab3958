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
    public static ItemDemand Of(ReadOnlySpan<double> days, DateOnly last, DemandMethod method) => Of(RecentDays.Of(days, last), method);

    public static ItemDemand Of(RecentDays days, DemandMethod method)
    {
        var mean = days.Count < 2 ? 0 : Math.Max(0, days.Sum / days.Count);
        if (mean == 0)
        {
            return None;
        }

        var rate = method == DemandMethod.HalfYear ? mean : Math.Max(0, BackTest.Weekly(method, days.Weeks()) / 7);
        var week = WeekShape.From(days);
        Span<double> usual = stackalloc double[7];
        week.Times(mean, usual);

        // One order is as large as before when the rate is another: the variance goes with it.
        var variance = days.SquaresAbout(usual) / (days.Count - 1) * rate / mean;
        return new(rate, variance, variance / BackTest.SpeakingDays(method, days.Count), week, method);
    }

    /// <summary>Whole weeks up to the last day, the oldest first.</summary>
    public static double[] Weeks(ReadOnlySpan<double> days) => RecentDays.Of(days, default(DateOnly).AddDays(days.Length)).Weeks();
}
