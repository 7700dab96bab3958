namespace Goodsheet.Room.Buying;

/// <summary>The level at or under which an item is ordered, in whole packs, for the part of what is wanted that is to be given from the shelf.</summary>
/// <remarks>
/// Policy (R, nQ): at each cut-off, order as many packs as bring the position above the point. The position after ordering
/// is then equally likely any of the Q values above the point, and what is short between two arrivals is the shortage to the
/// later less that to the earlier (Hadley, Whitin, Analysis of Inventory Systems, 1963, ch. 5, from memory).
/// Cycle service counts stretches without a shortage; the fill rate counts what was given. They are never the same figure.
/// </remarks>
/// <param name="Point">Order when the position is at or under this; below 0 when nothing need be kept.</param>
/// <param name="FillRate">The part of what is wanted that this gives at once.</param>
/// <param name="CycleService">The chance that nothing is short before the next delivery.</param>
public sealed record OrderLevel(long Point, double FillRate, double CycleService)
{
    /// <param name="toNextArrival">What is wanted until an order sent now comes.</param>
    /// <param name="toOneAfter">What is wanted until an order sent at the next chance comes.</param>
    /// <param name="pack">In the unit of the distributions.</param>
    /// <param name="fillRate">Asked for, between 0 and 1.</param>
    public static OrderLevel Find(CountDistribution toNextArrival, CountDistribution toOneAfter, long pack, double fillRate)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(pack, 1);
        var period = toOneAfter.Mean - toNextArrival.Mean;
        if (toOneAfter.Mean <= 0 || period <= 0)
        {
            return new(-1, 1, 1);
        }

        double Short(long y) => toOneAfter.Shortage(y) - toNextArrival.Shortage(y);
        var sum = 0.0;
        var no = 0.0;
        for (long y = 0; y < pack; y++)
        {
            sum += Short(y);
            no += toOneAfter.Below(y);
        }

        for (var point = -1L; ; point++)
        {
            var fill = 1 - (sum / pack / period);
            if (fill >= fillRate || point > toOneAfter.Chances.Count)
            {
                return new(point, fill, no / pack);
            }

            sum += Short(point + 1 + pack) - Short(point + 1);
            no += toOneAfter.Below(point + 1 + pack) - toOneAfter.Below(point + 1);
        }
    }

    /// <summary>What a point gives that was chosen otherwise.</summary>
    public static OrderLevel At(CountDistribution toNextArrival, CountDistribution toOneAfter, long pack, long point)
    {
        var period = toOneAfter.Mean - toNextArrival.Mean;
        if (period <= 0)
        {
            return new(point, 1, 1);
        }

        var (sum, no) = (0.0, 0.0);
        for (var y = point + 1; y <= point + pack; y++)
        {
            sum += toOneAfter.Shortage(y) - toNextArrival.Shortage(y);
            no += toOneAfter.Below(y);
        }

        return new(point, 1 - (sum / pack / period), no / pack);
    }
}
