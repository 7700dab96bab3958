namespace Goodsheet.Room.Buying;

/// <summary>How often to order from a supplier, and each how manieth time each item is on the order.</summary>
/// <remarks>An order costs K, an item on it k more; holding costs h for one in a unit of time.</remarks>
/// <param name="Every">Time between two orders.</param>
/// <param name="Multiples">1 for an item that is on every order, 2 for every second.</param>
public sealed record JointOrders(double Every, IReadOnlyList<int> Multiples, double Cost)
{
    /// <summary>Items up to which all combinations are tried; beyond, the heuristic answers.</summary>
    public const int MostForAll = 8;

    private const int MostMultiple = 8;

    public sealed record Item(double Joining, double Holding, double Demand);

    /// <summary>All multiples up to 8 when the items are few, else the heuristic.</summary>
    public static JointOrders Find(double K, IReadOnlyList<Item> items)
    {
        var best = Heuristic(K, items);
        if (items.Count > MostForAll)
        {
            return best;
        }

        var multiples = new int[items.Count];
        Search(0);
        return best;

        void Search(int at)
        {
            if (at == items.Count)
            {
                var found = Of(K, items, multiples);
                best = found.Cost < best.Cost - 1e-12 ? found : best;
                return;
            }

            for (var n = 1; n <= MostMultiple; n++)
            {
                multiples[at] = n;
                Search(at + 1);
            }
        }
    }

    /// <summary>Silver, Management Science 22(12), 1976, from memory: the item that wants it oftenest sets the beat.</summary>
    public static JointOrders Heuristic(double K, IReadOnlyList<Item> items)
    {
        ArgumentOutOfRangeException.ThrowIfZero(items.Count);
        var first = items.MinBy(i => i.Joining / (i.Holding * i.Demand))!;
        return Of(K, items, [.. items.Select(i => i == first ? 1
            : Math.Max(1, (int)Math.Round(Math.Sqrt(i.Joining / (i.Holding * i.Demand) * (first.Holding * first.Demand / (K + first.Joining))))))]);
    }

    private static JointOrders Of(double K, IReadOnlyList<Item> items, int[] multiples)
    {
        var (orders, holding) = (K, 0.0);
        for (var i = 0; i < items.Count; i++)
        {
            orders += items[i].Joining / multiples[i];
            holding += items[i].Holding * items[i].Demand * multiples[i];
        }

        return new(Math.Sqrt(2 * orders / holding), [.. multiples], Math.Sqrt(2 * orders * holding));
    }
}
