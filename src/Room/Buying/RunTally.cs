namespace Goodsheet.Room.Buying;

/// <summary>What came of one item in a run; amounts in boxes, or rolls.</summary>
/// <param name="Held">Usually on the shelf.</param>
/// <param name="DaysOwed">Days on which some work waited for it.</param>
/// <param name="PromisedFill">The part of what is wanted that the rule said it would give at once.</param>
/// <param name="PackPrice">What one cost while it ran; none without a price.</param>
public sealed record ItemTally(
    double Held, double Wanted, double GivenAtOnce, double Outdated, double Bought, int DaysOwed, double PromisedFill, double? PackPrice)
{
    public double FillRate => Wanted > 0 ? GivenAtOnce / Wanted : 1;
}

/// <summary>What came of one run of a room.</summary>
/// <param name="StockByWeek">What lay on the shelf at the end of each whole week, in money.</param>
public sealed record RunTally(IReadOnlyList<ItemTally> Items, int Orders, double Carriage, int Days, IReadOnlyList<double> StockByWeek)
{
    private const double Year = 365;

    private double Years => Days / Year;

    /// <summary>The part of all that was wanted that was there at once, a box of one paper counted as a box of another.</summary>
    public double FillRate => Part(i => i.GivenAtOnce);

    /// <summary>The same, as the rule said it would be.</summary>
    public double PromisedFill => Part(i => i.PromisedFill * i.Wanted);

    public double StockValue => Items.Sum(i => i.Held * (i.PackPrice ?? 0));

    public double OutdatedAYear => Items.Sum(i => i.Outdated * (i.PackPrice ?? 0)) / Years;

    public double PaperAYear => Items.Sum(i => i.Bought * (i.PackPrice ?? 0)) / Years;

    public double CarriageAYear => Carriage / Years;

    public double OrdersAYear => Orders / Years;

    /// <summary>Days of a year on which an item was owed, all items together.</summary>
    public double WaitsAYear => Items.Sum(i => i.DaysOwed) / Years;

    private double Part(Func<ItemTally, double> given)
    {
        var wanted = Items.Sum(i => i.Wanted);
        return wanted > 0 ? Items.Sum(given) / wanted : 1;
    }
}

/// <summary>A figure over many runs: its average, and between what it lay in nine of ten.</summary>
public readonly record struct RunFigure(double Mean, double Low, double High)
{
    private const double OneInTwenty = 0.05;

    /// <exception cref="ArgumentOutOfRangeException">There is no run.</exception>
    public static RunFigure Of(IEnumerable<double> runs)
    {
        double[] sorted = [.. runs.Order()];
        ArgumentOutOfRangeException.ThrowIfZero(sorted.Length);
        return new(sorted.Average(), At(OneInTwenty), At(1 - OneInTwenty));

        double At(double part)
        {
            var at = part * (sorted.Length - 1);
            var low = (int)at;
            return low + 1 < sorted.Length ? sorted[low] + ((at - low) * (sorted[low + 1] - sorted[low])) : sorted[low];
        }
    }
}
