namespace Goodsheet.Room.Runs;

/// <summary>When people are there, in minutes after an instant, and what becomes of work that wants them.</summary>
/// <param name="hours">From and to, in order; behind the last all hours are open.</param>
public sealed class OpenHours(IReadOnlyList<(double From, double To)> hours)
{
    private readonly (double From, double To)[] hours = [.. hours];

    public IReadOnlyList<(double From, double To)> All => hours;

    /// <summary>The hours of a room that opens and closes at the same time on each day it works.</summary>
    /// <param name="now">The instant from which minutes are counted; what is over by then is left out.</param>
    /// <param name="days">How many days are looked at, from today on.</param>
    public static OpenHours Of(DateTimeOffset now, TimeZoneInfo zone, TimeOnly opens, TimeOnly closes, Func<DayOfWeek, bool> worksOn, int days)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).DateTime);
        return new([.. Enumerable.Range(0, days).Select(today.AddDays).Where(d => worksOn(d.DayOfWeek))
            .Select(d => (From: Minute(d, opens), To: Minute(d, closes))).Where(h => h.To > Math.Max(0, h.From)).Select(h => (Math.Max(0, h.From), h.To))]);

        double Minute(DateOnly day, TimeOnly time)
        {
            var local = day.ToDateTime(time);
            return (new DateTimeOffset(local, zone.GetUtcOffset(local)) - now).TotalMinutes;
        }
    }

    /// <summary>The first instant from which a person is there for so long.</summary>
    public double Open(double earliest, double minutes)
    {
        foreach (var (from, to) in hours)
        {
            var begin = Math.Max(earliest, from);
            if (begin < to && (begin + minutes <= to || minutes > to - from))
            {
                return begin;
            }
        }

        return hours.Length == 0 ? earliest : Math.Max(earliest, hours[^1].To);
    }

    /// <summary>When so many minutes of work by hand are done, resting while the room is closed.</summary>
    public double Worked(double from, double minutes)
    {
        foreach (var (open, close) in hours)
        {
            if (from >= close)
            {
                continue;
            }

            from = Math.Max(from, open);
            if (from + minutes <= close)
            {
                return from + minutes;
            }

            minutes -= close - from;
            from = close;
        }

        return from + minutes;
    }
}
