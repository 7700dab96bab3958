using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Money;

/// <summary>A move of paper with what a sheet or mm of its lot cost; none where nobody wrote a price down.</summary>
public sealed record CostedMove(ItemCode Item, LotCode Lot, DateOnly Day, Account From, Account To, long Quantity, decimal? UnitCost)
{
    /// <summary>What comes into the room by it, or leaves it: below 0. Between shelf and printer nothing does.</summary>
    public long Change => (To.Holds ? Quantity : 0) - (From.Holds ? Quantity : 0);

    /// <summary>Bought, or cut from larger paper: what brings a cost with it. What a count finds does not.</summary>
    public bool IsReceipt => Change > 0 && (From == Account.Supplier || From == Account.Trimmed);
}

/// <summary>What an item that lies in the room is worth, two ways.</summary>
/// <param name="OnHand">Sheets or mm, on the shelf and at printers.</param>
/// <param name="Fifo">As if what came first left first: the newest costs remain. None without any price.</param>
/// <param name="Average">By the moving average: each receipt is mixed into what lies here.</param>
public sealed record StockValue(long OnHand, decimal? Fifo, decimal? Average)
{
    /// <summary>Values what lies here by its receipts and moves, in the order they were written.</summary>
    /// <remarks>Both ways as bookkeeping has them (first in first out, moving weighted average; from memory). A receipt without a price
    /// counts at the mean of the others; where none has one there is no value.</remarks>
    public static StockValue Of(IReadOnlyList<CostedMove> moves)
    {
        var onHand = moves.Sum(m => m.Change);
        var priced = moves.Where(m => m.IsReceipt && m.UnitCost is not null).ToList();
        if (priced.Count == 0 || onHand <= 0)
        {
            return new(Math.Max(0, onHand), onHand <= 0 ? 0 : null, onHand <= 0 ? 0 : null);
        }

        var mean = priced.Sum(m => m.UnitCost!.Value * m.Change) / priced.Sum(m => m.Change);
        return new(onHand, Layers(moves, onHand, mean), Moving(moves, mean));
    }

    // What is left is the newest of what came; what a count found beyond all receipts costs as the oldest.
    private static decimal Layers(IReadOnlyList<CostedMove> moves, long onHand, decimal mean)
    {
        var (left, value, cost) = (onHand, 0m, mean);
        foreach (var receipt in moves.Where(m => m.IsReceipt).Reverse())
        {
            var here = Math.Min(left, receipt.Change);
            cost = receipt.UnitCost ?? mean;
            value += here * cost;
            left -= here;
            if (left == 0)
            {
                break;
            }
        }

        return value + (left * cost);
    }

    private static decimal Moving(IReadOnlyList<CostedMove> moves, decimal mean)
    {
        var (quantity, average) = (0L, mean);
        foreach (var move in moves.Where(m => m.Change != 0))
        {
            if (move.IsReceipt && quantity + move.Change > 0)
            {
                average = ((quantity * average) + (move.Change * (move.UnitCost ?? mean))) / (quantity + move.Change);
            }

            quantity += move.Change;
        }

        return quantity * average;
    }
}

/// <summary>How quickly an item goes through the room.</summary>
/// <param name="Used">Sheets or mm that left by being printed, tested, wasted or cut up, in the days looked at.</param>
/// <param name="Days">Looked at: since the first move, at most a year.</param>
/// <param name="MeanOnHand">Mean of what lay here at the end of each of those days.</param>
/// <param name="LastUsed">The last day any was used for; none when it never was.</param>
public sealed record StockTurn(long Used, int Days, double MeanOnHand, DateOnly? LastUsed)
{
    public const int Year = 365;

    /// <summary>How often in a year what lies here is used up; none when nothing lay here.</summary>
    public double? PerYear => MeanOnHand > 0 ? Used / MeanOnHand * Year / Days : null;

    /// <summary>How many days it lies on average; none when nothing is used.</summary>
    public double? DaysLying => PerYear is > 0 and var turns ? Year / turns : null;

    public static StockTurn Of(IReadOnlyList<CostedMove> moves, DateOnly today)
    {
        if (moves.Count == 0)
        {
            return new(0, 1, 0, null);
        }

        var days = Math.Clamp(today.DayNumber - moves.Min(m => m.Day).DayNumber + 1, 1, Year);
        var first = today.AddDays(1 - days);
        var (onHand, sum) = (moves.Where(m => m.Day < first).Sum(m => m.Change), 0.0);
        var byDay = moves.Where(m => m.Day >= first).ToLookup(m => m.Day);
        for (var day = first; day <= today; day = day.AddDays(1))
        {
            onHand += byDay[day].Sum(m => m.Change);
            sum += Math.Max(0, onHand);
        }

        var used = moves.Where(m => IsUse(m)).ToList();
        return new(used.Where(m => m.Day >= first).Sum(m => -m.Change), days, sum / days, used.Count > 0 ? used.Max(m => m.Day) : null);
    }

    /// <summary>Whether paper was used by it: not sold back, miscounted or thrown away for its age.</summary>
    public static bool IsUse(CostedMove move) =>
        move.Change < 0 && (move.To == Account.Good || move.To == Account.Tests || move.To.IsWaste || move.To == Account.Trimmed);
}
