namespace Goodsheet.Room.Buying;

/// <summary>When the position is s or less, order up to S: the best pair for whole-number demand, exact.</summary>
/// <remarks>Zheng, Federgruen, Oper. Res. 39(4), 1991; the algorithm from memory, its 24 published rows in the tests.</remarks>
/// <param name="Least">s in the paper.</param>
/// <param name="UpTo">S in the paper.</param>
/// <param name="Cost">Per period, on average.</param>
public sealed record MinMaxPolicy(int Least, int UpTo, double Cost)
{
    /// <param name="K">Of an order.</param>
    /// <param name="h">Of one held for a period.</param>
    /// <param name="p">Of one missing for a period; what is missing is given later.</param>
    /// <param name="demand">Of a period.</param>
    public static MinMaxPolicy Find(double K, double h, double p, CountDistribution demand)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(h);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(p);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(demand.Mean);
        var renewal = new Renewal(demand.Chances);
        double Period(int y) => (h * (y - demand.Mean)) + ((h + p) * demand.Shortage(y));
        double CostOf(int low, int high)
        {
            var sum = K;
            for (var j = 0; j < high - low; j++)
            {
                sum += renewal.Visits(j) * Period(high - j);
            }

            return sum / renewal.Periods(high - low);
        }

        var best = 0;
        while (Period(best + 1) < Period(best))
        {
            best++;
        }

        var (s, S) = (best - 1, best);
        while (CostOf(s, S) > Period(s))
        {
            s--;
        }

        var cost = CostOf(s, S);
        for (var high = S + 1; Period(high) <= cost; high++)
        {
            if (CostOf(s, high) < cost)
            {
                S = high;
                while (CostOf(s, S) <= Period(s + 1))
                {
                    s++;
                }

                cost = CostOf(s, S);
            }
        }

        return new(s, S, cost);
    }

    /// <summary>How often each level is visited on the way down, and how many periods the way takes.</summary>
    private sealed class Renewal(IReadOnlyList<double> chances)
    {
        private readonly List<double> visits = [1 / (1 - chances[0])];
        private readonly List<double> periods = [0];

        public double Visits(int j)
        {
            while (visits.Count <= j)
            {
                var sum = 0.0;
                for (var l = 1; l <= visits.Count && l < chances.Count; l++)
                {
                    sum += chances[l] * visits[^l];
                }

                visits.Add(sum / (1 - chances[0]));
            }

            return visits[j];
        }

        public double Periods(int j)
        {
            while (periods.Count <= j)
            {
                periods.Add(periods[^1] + Visits(periods.Count - 1));
            }

            return periods[j];
        }
    }
}
