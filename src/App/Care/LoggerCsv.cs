using System.Globalization;
using System.Text.RegularExpressions;
using CsvHelper;
using CsvHelper.Configuration;
using Goodsheet.Room;
using Goodsheet.Room.Care;

namespace Goodsheet.App.Care;

/// <summary>Reads the CSV of a temperature and humidity logger. What it had to decide it says; what it cannot know it asks.</summary>
public static partial class LoggerCsv
{
    private const int MostLetters = 32_000_000;
    private const int MostLines = 200_000;
    private const int HeadingWithin = 50;
    private const int MostBadPerHundred = 10;
    private const int MostLinesNamed = 5;

    // No room is worked in at 45 °C, and one at 45 °F is a cold store: the one guess that cannot be wrong by much is not to guess.
    private const double TooHotForCelsius = 45;

    public static Outcome<LoggerFile> Read(string text, TimeZoneInfo zone, LoggerChoices choices)
    {
        if (text.Length > MostLetters)
        {
            return new NotALoggersFile($"The file is larger than {MostLetters / 1_000_000} MB: split it.");
        }

        var lines = text.TrimStart('\uFEFF').Split('\n', MostLines + HeadingWithin + 2);
        if (Heading.Find(lines.Take(HeadingWithin)) is not { } heading)
        {
            return new NotALoggersFile("No line of the first 50 names a time, a temperature and a humidity column.");
        }

        var rows = Rows(lines, heading);
        if (rows.Count > MostLines)
        {
            return new NotALoggersFile($"The file has more than {MostLines} lines: split it.");
        }

        return rows.Count == 0 ? new NotALoggersFile("No reading follows the heading.") : Readings(rows, heading, zone, choices);
    }

    private static Outcome<LoggerFile> Readings(List<Row> rows, Heading heading, TimeZoneInfo zone, LoggerChoices choices)
    {
        var findings = new List<string>(heading.Findings);
        var order = LoggerTimes.Order(rows.Select(r => (r.Line, r.Time)), choices.Order);
        if (!order.Granted)
        {
            return order.Refusal;
        }

        findings.AddRange(order.Value.Findings);
        var numbers = rows.Select(r => Number(r.Temperature)).ToList();
        var unit = Unit(heading, [.. numbers.OfType<double>()], choices.Unit, findings);
        if (!unit.Granted)
        {
            return unit.Refusal;
        }

        var times = new LoggerTimes(zone, order.Value.Order);
        var read = new List<(int Line, ClimateReading Reading)>();
        var bad = new List<(int Line, string Why)>();
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            if (times.Read(row.Time, row.Line) is not { } at)
            {
                bad.Add((row.Line, $"“{Short(row.Time)}” is no time"));
            }
            else if (numbers[i] is not { } shown || Number(row.Humidity) is not { } humidity)
            {
                bad.Add((row.Line, "temperature or humidity is no number"));
            }
            else if (Celsius(shown, unit.Value) is var celsius && !ImportAir.CanBeRoomAir(celsius, humidity))
            {
                bad.Add((row.Line, string.Create(CultureInfo.CurrentCulture, $"{celsius:0.#} °C and {humidity:0.#} % cannot be the air of a room")));
            }
            else
            {
                read.Add((row.Line, new() { At = at, Temperature = celsius, Humidity = Math.Round(humidity, 1) }));
            }
        }

        if (read.Count == 0 || bad.Count * 100 > rows.Count * MostBadPerHundred)
        {
            return new NotALoggersFile($"{bad.Count} of {rows.Count} lines cannot be read. {Named(bad)}");
        }

        if (bad.Count > 0)
        {
            findings.Add($"{bad.Count} {(bad.Count == 1 ? "line" : "lines")} left out. {Named(bad)}");
        }

        findings.AddRange(times.Findings);
        var sorted = InOrder(read, findings);
        return new LoggerFile(sorted, AirLog.Gaps([.. sorted.Select(r => r.At)]), findings);
    }

    private static List<ClimateReading> InOrder(List<(int Line, ClimateReading Reading)> read, List<string> findings)
    {
        var back = read.Zip(read.Skip(1)).Where(p => p.Second.Reading.At < p.First.Reading.At).Select(p => p.Second.Line).ToList();
        if (read.Count > 2 && back.Count == read.Count - 1)
        {
            findings.Add("The newest reading came first; turned round.");
        }
        else if (back.Count > 0)
        {
            findings.Add($"{back.Count} {(back.Count == 1 ? "line is" : "lines are")} earlier than the line before, first line {back[0]}; put in order.");
        }

        var sorted = new List<ClimateReading>();
        var (same, other) = (0, new List<int>());
        foreach (var (line, reading) in read.OrderBy(r => r.Reading.At).ThenBy(r => r.Line))
        {
            if (sorted.Count == 0 || sorted[^1].At != reading.At)
            {
                sorted.Add(reading);
            }
            else if (sorted[^1].Temperature == reading.Temperature && sorted[^1].Humidity == reading.Humidity)
            {
                same++;
            }
            else
            {
                other.Add(line);
            }
        }

        if (same > 0)
        {
            findings.Add($"{same} {(same == 1 ? "line says" : "lines say")} again what another says; counted once.");
        }

        if (other.Count > 0)
        {
            findings.Add($"{other.Count} {(other.Count == 1 ? "line gives" : "lines give")} another air for a time that was given before, first line {other[0]}; the earlier line stands.");
        }

        return sorted;
    }

    private static Outcome<UnitChosen> Unit(Heading heading, IReadOnlyList<double> shown, TemperatureUnit? said, List<string> findings)
    {
        if (shown.Count == 0)
        {
            return new NotALoggersFile("No temperature can be read.");
        }

        var middle = shown.Order().ElementAt(shown.Count / 2);
        var unit = said ?? heading.Unit;
        if (unit is null or TemperatureUnit.Celsius && said is null && middle > TooHotForCelsius)
        {
            return new NotALoggersFile(string.Create(CultureInfo.CurrentCulture,
                $"The middle temperature is {middle:0.#}{(heading.Unit is null ? " and the column does not say its unit" : " though the column says °C")}: no room is so hot in °C. Say whether it is Fahrenheit."));
        }

        if (unit is null)
        {
            findings.Add(string.Create(CultureInfo.CurrentCulture, $"The temperature column does not say its unit; read as °C, since its middle is {middle:0.#}."));
        }
        else if (unit is TemperatureUnit.Fahrenheit)
        {
            findings.Add(string.Create(CultureInfo.CurrentCulture, $"Temperatures were in °F and were turned into °C: {middle:0.#} °F became {Celsius(middle, new(TemperatureUnit.Fahrenheit)):0.#} °C."));
        }

        return new UnitChosen(unit ?? TemperatureUnit.Celsius);
    }

    private static List<Row> Rows(string[] lines, Heading heading)
    {
        using var csv = new CsvParser(new StringReader(string.Join('\n', lines.Skip(heading.Line))), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = heading.Delimiter,
            TrimOptions = TrimOptions.Trim,
            BadDataFound = null,
            Mode = CsvMode.RFC4180,
        });
        var rows = new List<Row>();
        while (rows.Count <= MostLines && csv.Read())
        {
            if (csv.Record is { } cells && cells.Any(c => c.Length > 0))
            {
                string Cell(int? at) => at is { } i && i < cells.Length ? cells[i] : "";
                rows.Add(new(heading.Line + csv.RawRow, $"{Cell(heading.Time)} {Cell(heading.Clock)}".Trim(), Cell(heading.Temperature), Cell(heading.Humidity)));
            }
        }

        return rows;
    }

    private static double Celsius(double shown, UnitChosen unit) =>
        Math.Round(unit.Unit is TemperatureUnit.Fahrenheit ? (shown - 32) * 5 / 9 : shown, 2);

    // A comma is the decimal sign when there is no point; both together are not read.
    private static double? Number(string cell)
    {
        var plain = Tail().Replace(cell, "");
        return double.TryParse(plain.Contains('.', StringComparison.Ordinal) ? plain : plain.Replace(',', '.'),
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? number : null;
    }

    private static string Named(List<(int Line, string Why)> bad) =>
        string.Join("; ", bad.Take(MostLinesNamed).Select(b => $"line {b.Line}: {b.Why}")) + (bad.Count > MostLinesNamed ? " and others." : ".");

    private static string Short(string text) => text.Length > 40 ? text[..40] : text;

    [GeneratedRegex(@"\s*(°\s*[CF]?|%\s*(RH|rH|r\.H\.)?)$")]
    private static partial Regex Tail();

    private sealed record Row(int Line, string Time, string Temperature, string Humidity);

    private sealed record UnitChosen(TemperatureUnit Unit);
}
