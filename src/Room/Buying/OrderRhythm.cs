namespace Goodsheet.Room.Buying;

/// <summary>How often to order from a supplier, each how manieth time every item is on the order, and what that costs in a year.</summary>
/// <remarks>Orders together (<see cref="JointOrders"/>), all combinations tried when the items are few; then whether it pays to wait until carriage is free.</remarks>
/// <param name="EveryDays">Days between two orders.</param>
/// <param name="Multiples">1 for an item that is on every order, 2 for every second; nothing is bought for more than a year ahead.</param>
/// <param name="CostAYear">Orders, lines, carriage, and keeping what is bought ahead.</param>
/// <param name="Basket">What one order comes to on average.</param>
/// <param name="TiedUp">Money in what is bought ahead, on average; the stock kept for safety is beside it.</param>
/// <param name="CarriagePaid">Of one order.</param>
/// <param name="AllTried">Whether all combinations were tried.</param>
public sealed record OrderRhythm(
    double EveryDays, IReadOnlyList<int> Multiples, double CostAYear, double Basket, double TiedUp, double CarriagePaid, bool AllTried)
{
    private const double Year = 365;

    /// <param name="perOrder">What writing and taking in one order costs, without carriage.</param>
    /// <param name="perLine">What each line of it costs more.</param>
    /// <param name="keeping">What a year of keeping costs, as a part of the worth.</param>
    /// <param name="bought">Of each item what is bought in a year, in money.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nothing is bought, or a cost is not above 0.</exception>
    public static OrderRhythm Find(double perOrder, double perLine, double keeping, Terms terms, IReadOnlyList<double> bought)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(perOrder);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(perLine);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(keeping);
        ArgumentOutOfRangeException.ThrowIfZero(bought.Count);
        JointOrders.Item[] items = [.. bought.Select(b => new JointOrders.Item(perLine, keeping, b))];
        var sum = bought.Sum();
        OrderRhythm[] ways = [.. new[] { perOrder, perOrder + terms.Carriage }.Select(k => JointOrders.Find(k, items)).SelectMany(joint =>
            new[] { joint.Every, (terms.FreeFrom ?? 0) / sum }.Select(every => At(Math.Max(every, terms.Minimum / sum), joint.Multiples)))];
        return ways.MinBy(w => w.CostAYear)!;

        OrderRhythm At(double every, IReadOnlyList<int> many)
        {
            // Not twice a day; and not for longer than a year, whatever it saves: paper ages, and work changes.
            every = Math.Clamp(every, 1 / Year, Math.Max(1, terms.Minimum / sum));
            var within = Math.Max(1, (int)(1 / every));
            int[] multiples = [.. many.Select(m => Math.Min(m, within))];
            var basket = sum * every;
            var carriage = terms.FreeFrom <= basket * (1 + 1e-12) ? 0 : terms.Carriage;
            var lines = multiples.Sum(m => perLine / m);
            var tiedUp = bought.Zip(multiples, (b, m) => b * m * every / 2).Sum();
            return new(every * Year, multiples, ((perOrder + carriage + lines) / every) + (keeping * tiedUp), basket, tiedUp, carriage, bought.Count <= JointOrders.MostForAll);
        }
    }

    /// <param name="FreeFrom">From this sum on carriage is free; none if it never is.</param>
    /// <param name="Minimum">The least order.</param>
    public readonly record struct Terms(double Carriage, double? FreeFrom, double Minimum);
}
