namespace Goodsheet.Room.Buying;

/// <summary>Which days somebody works: a week, less the days that are closed.</summary>
/// <remarks>Counts as the function WORKDAY of spreadsheets does (ISO/IEC 29500-1, 18.17.7): the first day is not counted.</remarks>
public sealed class Calendar
{
    /// <summary>A business closed for longer than this is no supplier: looking for its next day stops there.</summary>
    private const int LongestClosure = 3 * 366;

    private readonly WorkingWeek week;
    private readonly HashSet<DateOnly> closed;

    /// <exception cref="ArgumentException">The week has no day.</exception>
    public Calendar(WorkingWeek week, IEnumerable<DateOnly> closed)
    {
        if (!week.HasADay)
        {
            throw new ArgumentException("A week without a working day has no calendar.", nameof(week));
        }

        (this.week, this.closed) = (week, [.. closed]);
    }

    public bool IsWorkingDay(DateOnly day) => week.Includes(day.DayOfWeek) && !closed.Contains(day);

    /// <summary>The day itself if it is worked, else the next that is.</summary>
    /// <exception cref="InvalidOperationException">Every day of the next three years is closed.</exception>
    public DateOnly OnOrAfter(DateOnly day)
    {
        for (var ahead = 0; ahead <= LongestClosure; ahead++)
        {
            if (IsWorkingDay(day.AddDays(ahead)))
            {
                return day.AddDays(ahead);
            }
        }

        throw new InvalidOperationException($"No day of the {LongestClosure} after {day:yyyy-MM-dd} is worked.");
    }

    /// <summary>So many working days after a day, which need not be one itself; the day itself for 0.</summary>
    public DateOnly Plus(DateOnly day, int workingDays)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(workingDays);
        for (var left = workingDays; left > 0; left--)
        {
            day = OnOrAfter(day.AddDays(1));
        }

        return day;
    }

    /// <summary>How many working days lie after the first day, up to and with the last.</summary>
    public int WorkingDaysBetween(DateOnly first, DateOnly last)
    {
        var count = 0;
        for (var day = first.AddDays(1); day <= last; day = day.AddDays(1))
        {
            count += IsWorkingDay(day) ? 1 : 0;
        }

        return count;
    }
}
