namespace Goodsheet.Room.Buying;

/// <summary>When to order what is known to be wanted period by period, at the least cost.</summary>
/// <remarks>Wagner, Whitin, Management Science 5(1), 1958: an order covers whole periods, so the best last order decides.</remarks>
/// <param name="Orders">For each period what to order in it.</param>
public sealed record LotSizing(IReadOnlyList<double> Orders, double Cost)
{
    /// <summary>More periods than a plan needs, so a slip.</summary>
    public const int MostPeriods = 5_000;

    /// <param name="demand">For each period.</param>
    /// <param name="K">Of an order.</param>
    /// <param name="h">Of one kept to the next period.</param>
    /// <param name="price">Of one, by period; none if it is always the same.</param>
    public static LotSizing Find(IReadOnlyList<double> demand, double K, double h, IReadOnlyList<double>? price = null)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(demand.Count, MostPeriods);
        var periods = demand.Count;
        var least = new double[periods + 1];
        var until = new int[periods];
        for (var from = periods - 1; from >= 0; from--)
        {
            least[from] = double.PositiveInfinity;
            var cost = K;
            for (var to = from; to < periods; to++)
            {
                cost += demand[to] * ((h * (to - from)) + (price?[from] ?? 0));
                if (cost + least[to + 1] < least[from])
                {
                    (least[from], until[from]) = (cost + least[to + 1], to + 1);
                }
            }
        }

        var orders = new double[periods];
        for (var from = 0; from < periods; from = until[from])
        {
            orders[from] = demand.Skip(from).Take(until[from] - from).Sum();
        }

        return new(orders, least[0]);
    }
}
