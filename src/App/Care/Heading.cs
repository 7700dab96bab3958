namespace Goodsheet.App.Care;

/// <summary>Which column of a logger's file is what.</summary>
/// <param name="Line">The lines up to it and with it.</param>
/// <param name="Clock">The time of day, where it has a column beside the date.</param>
internal sealed record Heading(
    int Line, string Delimiter, int Time, int? Clock, int Temperature, int Humidity, TemperatureUnit? Unit, IReadOnlyList<string> Findings)
{
    private static readonly string[] Delimiters = [",", ";", "\t"];

    public static Heading? Find(IEnumerable<string> lines)
    {
        var number = 0;
        foreach (var line in lines)
        {
            number++;
            if (Delimiters.Select(d => Of(line, d, number)).FirstOrDefault(h => h is not null) is { } found)
            {
                return found;
            }
        }

        return null;
    }

    private static Heading? Of(string line, string delimiter, int number)
    {
        var names = line.Split(delimiter).Select(n => n.Trim().Trim('"').ToLowerInvariant()).ToList();
        var dates = Where(n => Has(n, "date"));
        var clocks = Where(n => Has(n, "time"));
        var temperatures = Where(n => Has(n, "temp") && !Has(n, "dew"));
        var humidities = Where(n => Has(n, "hum") || Parts(n).Contains("rh"));
        if (dates.Count + clocks.Count == 0 || temperatures.Count == 0 || humidities.Count == 0
            || temperatures[0] == humidities[0] || dates.Concat(clocks).Contains(temperatures[0]))
        {
            return null;
        }

        var time = dates.Count > 0 ? dates[0] : clocks[0];
        var clock = dates.Count > 0 && clocks.Any(c => c != time) && !Has(names[time], "time") ? clocks.First(c => c != time) : (int?)null;
        var findings = new List<string>();
        Say(temperatures, "temperature");
        Say(humidities, "humidity");
        return new(number, delimiter, time, clock, temperatures[0], humidities[0], UnitOf(names[temperatures[0]]), findings);

        List<int> Where(Func<string, bool> fits) => [.. Enumerable.Range(0, names.Count).Where(i => fits(names[i]))];

        void Say(List<int> columns, string what)
        {
            if (columns.Count > 1)
            {
                findings.Add($"{columns.Count} columns name a {what}; “{names[columns[0]]}” was taken.");
            }
        }
    }

    private static bool Has(string name, string word) => name.Contains(word, StringComparison.Ordinal);

    private static TemperatureUnit? UnitOf(string name)
    {
        var parts = Parts(name);
        return parts.Contains("f") || parts.Contains("fahrenheit") ? TemperatureUnit.Fahrenheit
            : parts.Contains("c") || parts.Contains("celsius") ? TemperatureUnit.Celsius : null;
    }

    private static HashSet<string> Parts(string name) =>
        [.. new string([.. name.Select(letter => char.IsAsciiLetter(letter) ? letter : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries)];
}
