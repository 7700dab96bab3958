using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;

namespace Goodsheet.Colour.Measurement;

/// <summary>How well the same device value prints and reads the same again: the floor under every error we report.</summary>
public static class Repeatability
{
    /// <summary>Differences of repeats inside one chart, as between any two of them.</summary>
    /// <returns>Null where no device value repeats.</returns>
    /// <remarks>Each repeat is compared with the mean of its group, then scaled by √(2n/(n−1)), since the mean leans
    /// towards each of them and two readings differ by more than one from the truth.</remarks>
    public static ErrorSummary? Within(MeasurementSet chart)
    {
        List<DeltaE00> found = [];
        foreach (var group in chart.Patches.GroupBy(p => string.Join(' ', p.Device)).Where(g => g.Count() > 1))
        {
            var n = group.Count();
            Lab mean = new(group.Average(p => p.Lab.L), group.Average(p => p.Lab.A), group.Average(p => p.Lab.B));
            var scale = Math.Sqrt(2.0 * n / (n - 1));
            found.AddRange(group.Select(p => new DeltaE00(scale * CieDe2000.Between(p.Lab, mean).Value)));
        }

        return found.Count > 0 ? ErrorSummary.Of(found) : null;
    }

    /// <summary>Differences of the device values that two charts share.</summary>
    /// <returns>Null where they share none.</returns>
    public static ErrorSummary? Between(MeasurementSet first, MeasurementSet second)
    {
        var known = first.Averaged().ToDictionary(p => string.Join(' ', p.Device), p => p.Lab);
        DeltaE00[] found =
        [
            .. second.Averaged().Select(p => (p.Lab, Key: string.Join(' ', p.Device))).Where(p => known.ContainsKey(p.Key))
                .Select(p => CieDe2000.Between(known[p.Key], p.Lab)),
        ];
        return found.Length > 0 ? ErrorSummary.Of(found) : null;
    }
}
