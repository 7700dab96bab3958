namespace Goodsheet.Room.Buying;

/// <summary>How what is wanted spreads over the days of a week: 1 for a usual day, 0 for one on which nothing goes; the seven sum to 7.</summary>
public sealed class WeekShape
{
    private readonly double[] parts;

    private WeekShape(double[] parts) => this.parts = parts;

    public static WeekShape Flat { get; } = new([1, 1, 1, 1, 1, 1, 1]);

    public bool IsFlat => Array.TrueForAll(parts, p => p == 1);

    public double Of(DayOfWeek day) => parts[(int)day];

    /// <summary>So many usual days lie in the days from the first on.</summary>
    public double UsualDays(DateOnly first, int days)
    {
        var sum = days / 7 * 7.0;
        for (var day = 0; day < days % 7; day++)
        {
            sum += Of(first.AddDays(day).DayOfWeek);
        }

        return sum;
    }

    /// <summary>As seen, drawn towards a flat week by as much as chance alone could have made of it.</summary>
    /// <remarks>Efron and Morris' shrinkage over the seven averages (<see cref="Shrinkage.Believed"/>).</remarks>
    public static WeekShape From(ReadOnlySpan<double> days, DateOnly last)
    {
        Span<double> sums = stackalloc double[7];
        Span<int> counts = stackalloc int[7];
        var weekday = (int)last.DayOfWeek;
        var total = 0.0;
        for (var at = days.Length - 1; at >= 0; at--)
        {
            sums[weekday] += days[at];
            counts[weekday]++;
            total += days[at];
            weekday = weekday == 0 ? 6 : weekday - 1;
        }

        if (days.Length < 28 || total <= 0)
        {
            return Flat;
        }

        var averages = new double[7];
        for (var day = 0; day < 7; day++)
        {
            averages[day] = Math.Max(0, sums[day] / counts[day]);
        }

        var residual = 0.0;
        weekday = (int)last.DayOfWeek;
        for (var at = days.Length - 1; at >= 0; at--)
        {
            residual += (days[at] - averages[weekday]) * (days[at] - averages[weekday]);
            weekday = weekday == 0 ? 6 : weekday - 1;
        }

        var mean = averages.Average();
        var believed = Shrinkage.Believed(averages, residual / Math.Max(1, days.Length - 7) / (days.Length / 7.0));
        return believed <= 0 ? Flat : new([.. averages.Select(a => 1 + (believed * ((a / mean) - 1)))]);
    }
}
