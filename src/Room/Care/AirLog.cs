namespace Goodsheet.Room.Care;

/// <summary>What a row of readings of the air says: day by day, and where it has gaps.</summary>
public static class AirLog
{
    /// <summary>A silence so many times longer than the usual step between readings is a gap. Our own choice.</summary>
    public const int GapFactor = 3;

    public static IReadOnlyList<AirDay> Days(IEnumerable<ClimateReading> readings, TimeZoneInfo zone) =>
    [
        .. readings.GroupBy(r => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(r.At, zone).DateTime)).OrderBy(g => g.Key)
            .Select(g => new AirDay(g.Key, g.Count(), Spread.Of(g.Select(r => r.Temperature)), Spread.Of(g.Select(r => r.Humidity)))),
    ];

    /// <summary>Silences between readings in the order of time, longest first.</summary>
    /// <param name="times">In the order of time.</param>
    public static IReadOnlyList<AirGap> Gaps(IReadOnlyList<DateTimeOffset> times)
    {
        if (times.Count < 3)
        {
            return [];
        }

        var steps = times.Zip(times.Skip(1), (from, to) => new AirGap(from, to)).ToList();
        var usual = steps.Select(s => s.Silent).Order().ElementAt(steps.Count / 2);
        return [.. steps.Where(s => s.Silent > usual * GapFactor).OrderByDescending(s => s.Silent)];
    }
}

public sealed record AirDay(DateOnly Day, int Readings, Spread Temperature, Spread Humidity);

/// <summary>Nothing was read between these two instants.</summary>
public sealed record AirGap(DateTimeOffset From, DateTimeOffset To)
{
    public TimeSpan Silent => To - From;
}

/// <summary>Least, middle and most of a day.</summary>
public sealed record Spread(double Least, double Median, double Most)
{
    internal static Spread Of(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        var middle = sorted.Count / 2;
        return new(sorted[0], sorted.Count % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2, sorted[^1]);
    }
}
