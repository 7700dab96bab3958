namespace Goodsheet.Colour.Difference;

/// <summary>Many colour differences in three numbers.</summary>
/// <param name="Mean">The mean.</param>
/// <param name="P95">95 of 100 are at most this: the smallest value with 95 % of all at or below it.</param>
/// <param name="Largest">The largest.</param>
/// <param name="Count">How many there are.</param>
public readonly record struct ErrorSummary(DeltaE00 Mean, DeltaE00 P95, DeltaE00 Largest, int Count)
{
    /// <summary>Sums up differences.</summary>
    /// <exception cref="ArgumentException">There are none.</exception>
    public static ErrorSummary Of(IEnumerable<DeltaE00> differences)
    {
        double[] d = [.. differences.Select(x => x.Value).Order()];
        return d.Length > 0
            ? new(new(d.Average()), new(d[(int)Math.Ceiling(0.95 * d.Length) - 1]), new(d[^1]), d.Length)
            : throw new ArgumentException("There are no differences to sum up.", nameof(differences));
    }
}
