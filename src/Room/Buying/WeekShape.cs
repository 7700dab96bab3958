namespace Goodsheet.Room.Buying;

/// <summary>How what is wanted spreads over the days of a week: 1 for a usual day, 0 for one on which nothing goes; the seven sum to 7.</summary>
public sealed class WeekShape
{
    /// <summary>Fewer days than this show no week.</summary>
    private const int LeastDays = 28;

    private readonly double[] parts;

    private WeekShape(double[] parts) => this.parts = parts;

    public static WeekShape Flat { get; } = new([1, 1, 1, 1, 1, 1, 1]);

    public bool IsFlat => Array.TrueForAll(parts, p => p == 1);

    public double Of(DayOfWeek day) => parts[(int)day];

    /// <summary>So many usual days lie in the days from the first on.</summary>
    public double UsualDays(DateOnly first, int days)
    {
        var sum = days / 7 * 7.0;
        var weekday = (int)first.DayOfWeek;
        for (var day = 0; day < days % 7; day++)
        {
            sum += parts[(weekday + day) % 7];
        }

        return sum;
    }

    /// <summary>As seen, drawn towards a flat week by as much as chance alone could have made of it.</summary>
    /// <remarks>Efron and Morris' shrinkage over the seven averages (<see cref="Shrinkage.Believed"/>).</remarks>
    public static WeekShape From(RecentDays days)
    {
        if (days.Count < LeastDays || days.Sum <= 0)
        {
            return Flat;
        }

        Span<double> averages = stackalloc double[7];
        days.Weekdays(averages);
        var mean = 0.0;
        for (var day = 0; day < 7; day++)
        {
            averages[day] = Math.Max(0, averages[day]);
            mean += averages[day] / 7;
        }

        var believed = Shrinkage.Believed(averages, days.SquaresAbout(averages) / Math.Max(1, days.Count - 7) / (days.Count / 7.0));
        if (believed <= 0)
        {
            return Flat;
        }

        var parts = new double[7];
        for (var day = 0; day < 7; day++)
        {
            parts[day] = 1 + (believed * ((averages[day] / mean) - 1));
        }

        return new(parts);
    }

    /// <summary>A figure for each weekday, Sunday first: so much of an average day.</summary>
    internal void Times(double average, Span<double> weekdays)
    {
        for (var day = 0; day < 7; day++)
        {
            weekdays[day] = average * parts[day];
        }
    }
}
