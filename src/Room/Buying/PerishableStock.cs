namespace Goodsheet.Room.Buying;

/// <summary>Stock that goes out of date, ordered once a period and there for the next: the best there is to do, exact, for small cases.</summary>
/// <remarks>
/// Value iteration over how much is left of each age; what is wanted and not there is lost. It is the yardstick for the room's own
/// rule, not the rule: its states grow with the power of the life. Set up after De Moor, Gijsbrechts, Boute, EJOR 301, 2022, and
/// Hendrix, Ortega, Haijema, Buisman, García, Comp. Math. Methods 1, 2019; their printed results are in the tests.
/// </remarks>
public sealed class PerishableStock
{
    /// <summary>More ages and amounts than this are too many to go through.</summary>
    public const int MostStates = 200_000;

    private const int MostRounds = 20_000;

    private readonly int sizes;
    private readonly int afters;
    private readonly double[] earned;
    private readonly (int After, double Chance)[][] leads;

    /// <param name="life">Periods a delivery can be used.</param>
    /// <param name="mostOrdered">In a period.</param>
    /// <param name="demand">Chances of 0, 1, 2 ... in a period.</param>
    /// <param name="freshestFirst">The takers choose the freshest; else the oldest is given.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too many states.</exception>
    public PerishableStock(int life, int mostOrdered, IReadOnlyList<double> demand, bool freshestFirst, Money money)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(life, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(mostOrdered, 1);
        sizes = mostOrdered + 1;
        var states = Math.Pow(sizes, life);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(states, MostStates, nameof(life));
        (Life, MostOrdered, Prices) = (life, mostOrdered, money);
        afters = (int)(states / sizes);
        earned = new double[(int)states];
        leads = new (int, double)[(int)states][];
        var stock = new int[life];
        for (var state = 0; state < earned.Length; state++)
        {
            Unpack(state, stock);
            (earned[state], leads[state]) = Period(stock, demand, freshestFirst);
        }
    }

    public int Life { get; }

    public int MostOrdered { get; }

    public Money Prices { get; }

    /// <summary>What to order from each state, and what a period then brings on average.</summary>
    /// <param name="discount">What money of the next period counts for now; 1 to go by the average.</param>
    public (double Earned, Func<IReadOnlyList<int>, int> Orders) Best(double within = 1e-6, double discount = 1)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(discount, 1);
        var orders = new int[earned.Length];
        var average = Iterate(within, discount, (state, worth) =>
        {
            var (best, most) = (0, double.NegativeInfinity);
            for (var order = 0; order < sizes; order++)
            {
                var value = worth(order);
                if (value > most + 1e-12)
                {
                    (best, most) = (order, value);
                }
            }

            orders[state] = best;
            return most;
        });
        int Orders(IReadOnlyList<int> stock) => orders[Pack(stock)];
        return (discount == 1 ? average : WorthOf(Orders, within), Orders);
    }

    /// <summary>What a period brings on average when this is ordered; the stock is given by age, the freshest first.</summary>
    public double WorthOf(Func<IReadOnlyList<int>, int> orders, double within = 1e-6)
    {
        var stock = new int[Life];
        var chosen = new int[earned.Length];
        for (var state = 0; state < chosen.Length; state++)
        {
            Unpack(state, stock);
            chosen[state] = Math.Clamp(orders(stock), 0, MostOrdered);
        }

        return Iterate(within, 1, (state, worth) => worth(chosen[state]));
    }

    /// <remarks>Each round goes half the way: a rule may order much and little in turn, and whole rounds would swing with it.</remarks>
    private double Iterate(double within, double discount, Func<int, Func<int, double>, double> choose)
    {
        var (worth, next) = (new double[earned.Length], new double[earned.Length]);
        for (var round = 0; round < MostRounds; round++)
        {
            var (least, most) = (double.PositiveInfinity, double.NegativeInfinity);
            for (var state = 0; state < next.Length; state++)
            {
                var leadsTo = leads[state];
                var whole = earned[state] + choose(state, order =>
                {
                    var sum = -Prices.Ordered * order;
                    foreach (var (after, chance) in leadsTo)
                    {
                        sum += discount * chance * worth[(order * afters) + after];
                    }

                    return sum;
                });
                var gained = whole - worth[state];
                next[state] = worth[state] + (gained / 2);
                (least, most) = (Math.Min(least, gained), Math.Max(most, gained));
            }

            if (most - least < within)
            {
                return (least + most) / 2;
            }

            var zero = next[0];
            for (var state = 0; state < next.Length; state++)
            {
                worth[state] = next[state] - zero;
            }
        }

        throw new InvalidOperationException($"No average was reached in {MostRounds} rounds: the rule leads round in circles.");
    }

    /// <summary>What a period earns whatever is ordered, and what may be left of it, the freshest order not yet added.</summary>
    private (double Earned, (int After, double Chance)[] Leads) Period(int[] stock, IReadOnlyList<double> demand, bool freshestFirst)
    {
        var total = stock.Sum();
        var left = new Dictionary<int, double>();
        var sum = 0.0;
        var remaining = (int[])stock.Clone();
        for (var wanted = 0; wanted < demand.Count; wanted++)
        {
            if (wanted > 0 && wanted <= total)
            {
                var age = freshestFirst ? Array.FindIndex(remaining, r => r > 0) : Array.FindLastIndex(remaining, r => r > 0);
                remaining[age]--;
            }

            var kept = 0;
            var after = 0;
            for (var age = 0; age < Life - 1; age++)
            {
                kept += remaining[age];
                after = (after * sizes) + remaining[age];
            }

            sum += demand[wanted] * ((Prices.Sold * Math.Min(wanted, total)) - (Prices.Missing * Math.Max(0, wanted - total))
                - (Prices.Outdated * remaining[^1]) - (Prices.Held * kept));
            left[after] = left.GetValueOrDefault(after) + demand[wanted];
        }

        return (sum, [.. left.Select(l => (l.Key, l.Value))]);
    }

    private int Pack(IReadOnlyList<int> stock) => stock.Aggregate(0, (sum, left) => (sum * sizes) + left);

    private void Unpack(int state, int[] stock)
    {
        for (var age = Life - 1; age >= 0; age--)
        {
            (state, stock[age]) = (state / sizes, state % sizes);
        }
    }

    /// <summary>Of one: what ordering, missing, outdating and keeping it costs, and what selling it brings.</summary>
    public readonly record struct Money(double Ordered, double Missing, double Outdated, double Held, double Sold);
}
