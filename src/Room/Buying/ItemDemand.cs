namespace Goodsheet.Room.Buying;

/// <summary>How an item goes: its rate, how sure that is, how it spreads over the week, and by which method that was reckoned.</summary>
/// <param name="PerDay">Of an average day, in sheets or mm.</param>
/// <param name="VariancePerDay">Of one day about what is usual for it.</param>
/// <param name="RateVariance">Of the rate itself, since it was reckoned from few days.</param>
public sealed record ItemDemand(double PerDay, double VariancePerDay, double RateVariance, WeekShape Week, DemandMethod Method)
{
    /// <summary>Others that are fewer say nothing of a new item.</summary>
    public const int LeastAlike = 3;

    private const double NineInTen = 1.6449; // of a normal distribution, both sides

    /// <summary>Other papers whose rates speak in this one, since it is new; 0 when it speaks for itself.</summary>
    public int LikenedTo { get; private init; }

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

    /// <summary>A new item's rate drawn towards those of items like it, by as much as its own few days cannot say.</summary>
    /// <remarks>Credibility after Bühlmann, ASTIN Bulletin 4(3), 1967, from memory: the weight of its own average is the spread between
    /// items over that spread and what chance alone makes of so few days.</remarks>
    /// <param name="days">The item's own days.</param>
    /// <param name="alike">Items of its class and format that are not new.</param>
    public ItemDemand Likened(int days, IReadOnlyList<ItemDemand> alike)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        if (alike.Count < LeastAlike)
        {
            return this;
        }

        var (mean, chance) = (alike.Average(a => a.PerDay), alike.Average(a => a.VariancePerDay));
        var between = Math.Max(0, alike.Sum(a => (a.PerDay - mean) * (a.PerDay - mean)) / (alike.Count - 1));
        if (chance <= 0)
        {
            return this;
        }

        var own = between / (between + (chance / days));
        var rate = (own * PerDay) + ((1 - own) * mean);
        return this with
        {
            PerDay = rate,
            VariancePerDay = (own * VariancePerDay) + ((1 - own) * chance),
            RateVariance = own * chance / days,
            LikenedTo = alike.Count,
        };
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
