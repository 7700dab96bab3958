namespace Goodsheet.Room.Buying;

/// <summary>The textbook answers of stock keeping, each with its check in the tests.</summary>
/// <remarks>Notation of Snyder, Shen, Fundamentals of Supply Chain Theory, 2nd ed. 2019: K an order, h holding one for a unit of time, p missing one.</remarks>
public static class ClosedForms
{
    /// <summary>What to order at a time when demand is steady, and what it costs in a unit of time.</summary>
    public static (double Quantity, double Cost) EconomicOrder(double K, double h, double demand)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(h);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(demand);
        return (Math.Sqrt(2 * K * demand / h), Math.Sqrt(2 * K * h * demand));
    }

    /// <summary>What to have once for a demand that is normal, and what being wrong costs on average.</summary>
    public static (double Quantity, double Cost) Newsvendor(double h, double p, double mean, double deviation)
    {
        var z = Normal.Quantile(p / (p + h));
        return (mean + (z * deviation), (h + p) * deviation * Normal.Density(z));
    }

    /// <summary>The deviation of what is wanted over a lead time that itself varies.</summary>
    public static double LeadTimeDeviation(double perDay, double dayDeviation, double leadDays, double leadDeviation) =>
        Math.Sqrt((leadDays * dayDeviation * dayDeviation) + (perDay * perDay * leadDeviation * leadDeviation));
}

/// <summary>Ordering Q whenever the position falls to r, with normal demand over the lead time.</summary>
public sealed record PointAndQuantity(double Point, double Quantity, double LeadMean, double LeadDeviation)
{
    private double Z => (Point - LeadMean) / LeadDeviation;

    /// <summary>The chance that nothing is missing in a cycle. Not the fill rate.</summary>
    public double CycleService => Normal.Below(Z);

    /// <summary>The part of what is wanted that is given at once.</summary>
    public double FillRate => 1 - (LeadDeviation * Normal.Loss(Z) / Quantity);

    /// <summary>Exact, in a unit of time (Snyder, Shen, 5.1).</summary>
    public double Cost(double K, double h, double p, double demand) =>
        (K * demand / Quantity) + (h * (Point - LeadMean + (Quantity / 2)))
        + ((h + p) * (SecondLoss(Point) - SecondLoss(Point + Quantity)) / Quantity);

    private double SecondLoss(double y)
    {
        var z = (y - LeadMean) / LeadDeviation;
        return LeadDeviation * LeadDeviation * ((((z * z) + 1) * Normal.Above(z)) - (z * Normal.Density(z))) / 2;
    }
}
