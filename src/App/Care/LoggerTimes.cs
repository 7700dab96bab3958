using System.Globalization;
using System.Text.RegularExpressions;
using Goodsheet.Room;

namespace Goodsheet.App.Care;

/// <summary>Reads the times of a logger's file: with an offset as they are, others on the room's own clock.</summary>
internal sealed partial class LoggerTimes(TimeZoneInfo zone, DateOrder? order)
{
    private readonly List<int> twice = [];
    private readonly List<int> never = [];
    private DateTimeOffset last;

    public IEnumerable<string> Findings
    {
        get
        {
            if (twice.Count > 0)
            {
                yield return $"{twice.Count} lines are in the hour that the clock shows twice when summer time ends, first line {twice[0]}; told apart by the order of the lines.";
            }

            if (never.Count > 0)
            {
                yield return $"{never.Count} lines are in the hour that the clock leaves out when summer time begins, first line {never[0]}; read as if the clock had not been put forward.";
            }
        }
    }

    /// <summary>Whether the day or the month comes first, and how that is known; refused when only a person can say.</summary>
    public static Outcome<Known> Order(IEnumerable<(int Line, string Time)> times, DateOrder? said)
    {
        (int Line, string Time)? dayFirst = null, monthFirst = null, either = null;
        foreach (var (line, time) in times)
        {
            if (Numbers().Match(time) is not { Success: true } date)
            {
                continue;
            }

            either ??= (line, time);
            var (first, second) = (Int(date, 1), Int(date, 2));
            if (first > 12)
            {
                dayFirst ??= (line, time);
            }
            else if (second > 12)
            {
                monthFirst ??= (line, time);
            }
        }

        return (dayFirst, monthFirst, either) switch
        {
            (_, _, null) => new Known(null, []),
            ({ } day, { } month, _) => new NotALoggersFile($"Line {day.Line} has the day first (“{day.Time}”) and line {month.Line} the month (“{month.Time}”)."),
            ({ } day, null, _) when said is not DateOrder.MonthFirst => new Known(DateOrder.DayFirst, [$"Dates have the day first: line {day.Line} says “{day.Time}”."]),
            (null, { } month, _) when said is not DateOrder.DayFirst => new Known(DateOrder.MonthFirst, [$"Dates have the month first: line {month.Line} says “{month.Time}”."]),
            (null, null, { } any) when said is null => new NotALoggersFile($"“{any.Time}” on line {any.Line} can be day and month or month and day, and no line tells. Say which comes first."),
            (null, null, _) => new Known(said, []),
            var (day, month, _) => new NotALoggersFile($"“{(day ?? month)!.Value.Time}” on line {(day ?? month)!.Value.Line} does not go with the order you said."),
        };
    }

    public DateTimeOffset? Read(string text, int line)
    {
        if (IsoWithOffset().IsMatch(text))
        {
            return DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var instant) ? last = instant.ToUniversalTime() : null;
        }

        if (Local(text) is not { } local)
        {
            return null;
        }

        if (zone.IsInvalidTime(local))
        {
            never.Add(line);
            return last = new DateTimeOffset(local, zone.BaseUtcOffset).ToUniversalTime();
        }

        if (!zone.IsAmbiguousTime(local))
        {
            return last = new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
        }

        twice.Add(line);
        var candidates = zone.GetAmbiguousTimeOffsets(local).Select(offset => new DateTimeOffset(local, offset).ToUniversalTime()).Order().ToList();
        return last = candidates.FirstOrDefault(c => c > last, candidates[^1]);
    }

    private DateTime? Local(string text)
    {
        if (IsoDate().Match(text) is { Success: true } iso)
        {
            return Make(Int(iso, 1), Int(iso, 2), Int(iso, 3), iso.Groups[4].Value);
        }

        if (Numbers().Match(text) is not { Success: true } date)
        {
            return null;
        }

        var (first, second, year) = (Int(date, 1), Int(date, 2), Int(date, 3));
        year += year < 100 ? 2000 : 0;
        return order is DateOrder.MonthFirst ? Make(year, first, second, date.Groups[4].Value) : Make(year, second, first, date.Groups[4].Value);
    }

    private static DateTime? Make(int year, int month, int day, string clock) =>
        year is >= 2000 and < 2200 && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            && TimeOnly.TryParseExact(clock.Trim(), ClockForms, CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? new DateOnly(year, month, day).ToDateTime(time) : null;

    private static readonly string[] ClockForms = ["H:mm", "H:mm:ss", "H:mm:ss.FFFFFFF", "h:mm tt", "h:mm:ss tt"];

    private static int Int(Match match, int group) => int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})[T ](.+)$")]
    private static partial Regex IsoDate();

    [GeneratedRegex(@"^\d{4}-\d\d-\d\d[T ]\d\d:\d\d.*(Z|[+-]\d\d:?\d\d)$")]
    private static partial Regex IsoWithOffset();

    [GeneratedRegex(@"^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2}),? (.+)$")]
    private static partial Regex Numbers();

    internal sealed record Known(DateOrder? Order, IReadOnlyList<string> Findings);
}
