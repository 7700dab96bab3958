namespace Goodsheet.Room.Buying;

/// <summary>Draws many short records towards what they have in common: few deliveries say little of a supplier alone.</summary>
public static class Shrinkage
{
    /// <summary>The part of a record's distance from the common mean that is believed; between 0 and 1.</summary>
    /// <remarks>Efron, Morris, J. Am. Stat. Assoc. 70, 1975: c = 1 − (n − 3) σ² / Σ (y − ȳ)², never below 0.</remarks>
    /// <param name="records">Of each, its own average.</param>
    /// <param name="variance">Of one average, from chance alone.</param>
    public static double Believed(ReadOnlySpan<double> records, double variance)
    {
        if (records.Length < 4)
        {
            return 0;
        }

        var (mean, spread) = (0.0, 0.0);
        foreach (var y in records)
        {
            mean += y / records.Length;
        }

        foreach (var y in records)
        {
            spread += (y - mean) * (y - mean);
        }

        return spread <= 0 ? 0 : Math.Max(0, 1 - ((records.Length - 3) * variance / spread));
    }

    /// <summary>The chance of a success as if so many of one more record with the common chance had been seen before.</summary>
    public static double Rate(int successes, int tries, double common, double weight) => (successes + (common * weight)) / (tries + weight);
}
