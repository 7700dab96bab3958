using System.Text.RegularExpressions;

namespace Goodsheet.Colour.Measurement;

/// <summary>How long the strips of a chart are, told from the names of its places: A1, A2 ... B1, B2 ...</summary>
public static partial class StripPlaces
{
    private const int Shortest = 4;

    /// <summary>Patches to a strip, or null where ids and names tell of none.</summary>
    /// <remarks>A name is letters and a number, either first. A strip is a run of one of the two parts; all strips
    /// are alike but the last, which may be shorter.</remarks>
    public static int? Length(MeasurementSet chart) => Of([.. chart.Patches.Select(p => p.Name ?? "")]) ?? Of([.. chart.Patches.Select(p => p.Id)]);

    private static int? Of(string[] names)
    {
        var places = names.Select(n => Place().Match(n)).ToArray();
        if (places.Length <= Shortest || places.Any(p => !p.Success))
        {
            return null;
        }

        // The part that changes slowly names the strip.
        return Runs([.. places.Select(p => p.Groups["a"].Value + p.Groups["b"].Value)]) ?? Runs([.. places.Select(p => p.Groups["n"].Value)]);
    }

    private static int? Runs(string[] parts)
    {
        List<int> runs = [1];
        for (var i = 1; i < parts.Length; i++)
        {
            if (parts[i] == parts[i - 1])
            {
                runs[^1]++;
            }
            else
            {
                runs.Add(1);
            }
        }

        return runs.Count > 1 && runs[0] >= Shortest && runs[^1] <= runs[0] && runs.SkipLast(1).All(r => r == runs[0]) ? runs[0] : null;
    }

    [GeneratedRegex("^(?:(?<a>[A-Za-z]{1,2})(?<n>[0-9]{1,3})|(?<n>[0-9]{1,3})(?<b>[A-Za-z]{1,2}))$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Place();
}
