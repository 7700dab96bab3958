namespace Goodsheet.Room.Money;

/// <summary>Margin, markup and rounding.</summary>
public static class Pricing
{
    /// <summary>price = cost / (1 - margin). A margin of a third is a markup of a half.</summary>
    public static decimal WithMargin(decimal cost, decimal margin) => margin is >= 0 and < 1
        ? cost / (1 - margin)
        : throw new ArgumentOutOfRangeException(nameof(margin), margin, "A margin is from 0 up to, not including, 1.");

    public static decimal MarkupOf(decimal margin) => margin / (1 - margin);

    public static decimal MarginOf(decimal markup) => markup / (1 + markup);

    /// <summary>The next multiple of the step at or above; a step of 0 is the cent.</summary>
    public static decimal RoundUp(decimal price, decimal step) => Math.Ceiling(price / Step(step)) * Step(step);

    /// <summary>To the cent; half a cent away from nothing, as bills are rounded (common practice, no source).</summary>
    public static decimal ToTheCent(decimal amount) => Math.Round(amount, 2, MidpointRounding.AwayFromZero);

    private static decimal Step(decimal step) => step <= 0 ? 0.01m : step;
}

/// <summary>Shares of a rounded total that sum to it exactly.</summary>
/// <remarks>Largest remainder: each share is cut down to whole cents, and the cents left go to the largest parts cut off;
/// of equal ones the earlier first (Hamilton's method; from memory).</remarks>
public static class LargestRemainder
{
    public static IReadOnlyList<decimal> Share(decimal total, IReadOnlyList<decimal> exact)
    {
        var cents = decimal.ToInt64(total * 100);
        if (cents / 100m != total || exact.Any(e => e < 0))
        {
            throw new ArgumentException("The total is in whole cents and no share is below 0.", nameof(total));
        }

        var sum = exact.Sum();
        var wanted = exact.Select(e => sum == 0 ? (decimal)cents / exact.Count : e / sum * cents).ToArray();
        var given = wanted.Select(w => decimal.ToInt64(Math.Floor(w))).ToArray();
        var left = cents - given.Sum();
        foreach (var i in Enumerable.Range(0, exact.Count).OrderByDescending(i => wanted[i] - given[i]).ThenBy(i => i).Take((int)left))
        {
            given[i]++;
        }

        return [.. given.Select(g => g / 100m)];
    }
}

/// <summary>What a minute costs when all that was paid for is spread over what can be worked, and what was left unused.</summary>
/// <remarks>Kaplan, Anderson, "Time-Driven Activity-Based Costing", Harvard Business Review 82(11), 2004.</remarks>
public readonly record struct Capacity(decimal Minutes, decimal Cost)
{
    public decimal PerMinute => Minutes > 0 ? Cost / Minutes : throw new InvalidOperationException("There is no capacity to spread a cost over.");

    public decimal CostOf(decimal minutes) => minutes * PerMinute;

    public decimal Unused(decimal minutesUsed) => (Minutes - minutesUsed) * PerMinute;
}
