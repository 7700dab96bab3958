namespace Goodsheet.Room.Buying;

/// <summary>The last days of an item, summed so that how it goes is told at once, however long the past is.</summary>
/// <remarks>
/// A day that is added pushes the oldest out. The sums are those that going through all days would give: amounts are whole sheets or
/// mm, which a double adds without rounding.
/// </remarks>
public sealed class RecentDays
{
    private readonly int most;
    private readonly double[] weekdaySums = new double[7];
    private readonly int[] weekdayCounts = new int[7];
    private double[] upTo;
    private double squares;
    private int begin;
    private int end;
    private DayOfWeek next;

    /// <param name="first">The weekday of the first day that will be added.</param>
    /// <param name="most">Days that are looked at; older ones no longer count.</param>
    public RecentDays(DayOfWeek first, int most)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        (next, this.most, upTo) = (first, most, new double[most + 1]);
    }

    public int Count => end - begin;

    public double Sum => upTo[end] - upTo[begin];

    /// <summary>All days, the oldest first, the last of a date.</summary>
    public static RecentDays Of(ReadOnlySpan<double> days, DateOnly last)
    {
        var recent = new RecentDays(last.AddDays(1 - days.Length).DayOfWeek, Math.Max(1, days.Length));
        foreach (var day in days)
        {
            recent.Add(day);
        }

        return recent;
    }

    /// <param name="wanted">Below 0 when more came back than went.</param>
    public void Add(double wanted)
    {
        if (Count == most)
        {
            var gone = upTo[begin + 1] - upTo[begin];
            var weekday = ((int)next - (most % 7) + 7) % 7;
            weekdaySums[weekday] -= gone;
            weekdayCounts[weekday]--;
            squares -= gone * gone;
            begin++;
        }

        if (end + 1 == upTo.Length)
        {
            var room = begin == 0 ? new double[2 * (most + 1)] : upTo;
            Array.Copy(upTo, begin, room, 0, Count + 1);
            (upTo, begin, end) = (room, 0, Count);
        }

        upTo[end + 1] = upTo[end] + wanted;
        end++;
        weekdaySums[(int)next] += wanted;
        weekdayCounts[(int)next]++;
        squares += wanted * wanted;
        next = next == DayOfWeek.Saturday ? DayOfWeek.Sunday : next + 1;
    }

    /// <summary>Of the days of a week, Sunday first: the average of each.</summary>
    public void Weekdays(Span<double> averages)
    {
        for (var day = 0; day < 7; day++)
        {
            averages[day] = weekdayCounts[day] == 0 ? 0 : weekdaySums[day] / weekdayCounts[day];
        }
    }

    /// <summary>The squares of what each day was off a figure for its weekday, summed.</summary>
    public double SquaresAbout(ReadOnlySpan<double> weekdays)
    {
        var sum = squares;
        for (var day = 0; day < 7; day++)
        {
            sum += weekdays[day] * ((weekdays[day] * weekdayCounts[day]) - (2 * weekdaySums[day]));
        }

        return Math.Max(0, sum);
    }

    /// <summary>Whole weeks up to the last day, the oldest first; a week in which more came back than went counts as none.</summary>
    public double[] Weeks()
    {
        var weeks = new double[Count / 7];
        for (int week = weeks.Length - 1, at = end; week >= 0; week--, at -= 7)
        {
            weeks[week] = Math.Max(0, upTo[at] - upTo[at - 7]);
        }

        return weeks;
    }
}
