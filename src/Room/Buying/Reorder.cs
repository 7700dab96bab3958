using System.Globalization;
using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Buying;

/// <summary>What the room has of an item, and how it goes.</summary>
public sealed record ItemNeed
{
    /// <summary>Of paper; a consumable has none.</summary>
    public ItemCode Item { get; init; }

    public required bool IsRoll { get; init; }

    /// <summary>Sheets in a pack, or mm of a roll, as it would be bought.</summary>
    public required long Pack { get; init; }

    /// <summary>On the shelf and fit for clients, with the day it is good until.</summary>
    public required IReadOnlyList<(long Left, DateOnly? GoodUntil)> Lots { get; init; }

    /// <summary>Sent for and not here yet.</summary>
    public required long OnTheWay { get; init; }

    /// <summary>Wanted by orders in the book.</summary>
    public required long Promised { get; init; }

    /// <summary>Kept for work that is promised the same day.</summary>
    public required long Reserve { get; init; }

    /// <summary>What goes in a day, and its variance.</summary>
    public required double PerDay { get; init; }

    public required double VariancePerDay { get; init; }

    /// <summary>Of the rate itself, which was reckoned from a past that is short.</summary>
    public double RateVariance { get; init; }

    public WeekShape Week { get; init; } = WeekShape.Flat;

    public long OnShelf => Lots.Sum(l => l.Left);
}

/// <summary>Whether an item should be on the order that can be sent now, how many packs of it, and why.</summary>
public sealed record Reorder(ItemNeed Need, Promise Promise, OrderLevel Level, long Outdates, int Packs, DateOnly? UnderReserveOn)
{
    /// <summary>Chances are worked out in steps of this part of a pack or of what goes, so that long rolls take no longer than sheets.</summary>
    private const double Steps = 300;

    private const int MostPacks = 1_000;

    /// <summary>Shortages nearer than this are the same.</summary>
    private const double Alike = 1e-9;

    public static Reorder Of(ItemNeed need, Promise promise, DateOnly today, double fillRate) => Of(need, promise, today, fillRate, Lateness.Never);

    public static Reorder Of(ItemNeed need, Promise promise, DateOnly today, double fillRate, Lateness late) =>
        Of(need, promise, today, fillRate, late, Takers.OfARoom);

    public static Reorder Of(ItemNeed need, Promise promise, DateOnly today, double fillRate, Lateness late, Takers takers)
    {
        var (first, second) = (promise.ComesOn.DayNumber - today.DayNumber, promise.ThenComesOn.DayNumber - today.DayNumber);
        var unit = Unit(need, need.Week.UsualDays(today, second) + late.Mean);
        var (toFirst, toSecond) = (Wanted(need, today, first, unit, late), Wanted(need, today, second, unit, late));
        var period = toSecond.Mean - toFirst.Mean;
        var level = OrderLevel.Find(toFirst, toSecond, Math.Max(1, need.Pack / unit), fillRate);
        var point = level.Point * unit;
        if (need.Reserve > 0 && need.Reserve + (long)Math.Ceiling(need.PerDay * second) - 1 is var reserved && reserved > point)
        {
            (point, level) = (reserved, OrderLevel.At(toFirst, toSecond, Math.Max(1, need.Pack / unit), reserved / unit));
        }

        var outdates = ExpectedOutdates(need.Lots, need.PerDay, today, promise.ThenComesOn);
        var position = need.OnShelf - outdates + need.OnTheWay - need.Promised;
        var packs = Packs(position);
        if (period > 0 && AnyBefore(need.Lots, promise.ThenComesOn.AddDays(-1)))
        {
            packs = Aged(need, today, (first, second), (toFirst, toSecond), point / unit, unit, takers);
            if (!takers.Leave)
            {
                // What waits is counted in the position: at the best nothing is lost, at the worst all that ends before.
                var whole = need.OnShelf + need.OnTheWay - need.Promised;
                packs = Math.Clamp(packs, Packs(whole), Packs(whole - need.Lots.Where(l => l.GoodUntil < promise.ThenComesOn).Sum(l => l.Left)));
            }
        }

        int Packs(long at) => at > point ? 0 : (int)Math.Min(MostPacks, (point + need.Pack - at) / need.Pack);

        return new(need, promise, level with { Point = point }, outdates, packs, UnderOn(need, outdates, today));
    }

    /// <summary>The packs that make what will be short no more than it is just above the point where nothing ages.</summary>
    private static int Aged(
        ItemNeed need, DateOnly today, (int First, int Second) days, (CountDistribution First, CountDistribution Second) to, long point, long unit, Takers takers)
    {
        var (a, b) = (to.First, to.Second);
        var between = CountDistribution.Of(b.Mean - a.Mean, Math.Max(0, b.Variance - a.Variance));
        var stock = new AgeingStock(
            [.. need.Lots.Select(l => (l.Left, Good: l.GoodUntil is { } until ? until.DayNumber - today.DayNumber + 1 : days.Second))
                .Where(l => l.Good > 0)
                .Select(l => new AgeingStock.Lot(
                    (double)l.Left / unit, Math.Min(1, (double)l.Good / days.First), Math.Min(1, (double)(l.Good - days.First) / (days.Second - days.First))))],
            (double)(need.OnTheWay - need.Promised) / unit, a, between, takers);
        var enough = b.Shortage(point + 1) - a.Shortage(point + 1);
        var packs = 0;
        while (packs < MostPacks && stock.Short((double)packs * need.Pack / unit) > enough + Alike)
        {
            packs++;
        }

        return packs;
    }

    /// <summary>What goes out of date before a day although the first to expire is used first, at the usual rate.</summary>
    public static long ExpectedOutdates(IReadOnlyList<(long Left, DateOnly? GoodUntil)> lots, double perDay, DateOnly today, DateOnly before)
    {
        var (used, lost) = (0.0, 0.0);
        if (!AnyBefore(lots, before))
        {
            return 0;
        }

        foreach (var (left, until) in lots.Where(l => l.GoodUntil < before).OrderBy(l => l.GoodUntil))
        {
            var use = Math.Clamp((perDay * (until!.Value.DayNumber - today.DayNumber + 1)) - used, 0, left);
            used += use;
            lost += left - use;
        }

        return (long)Math.Round(lost);
    }

    private static bool AnyBefore(IReadOnlyList<(long Left, DateOnly? GoodUntil)> lots, DateOnly before)
    {
        for (var lot = 0; lot < lots.Count; lot++)
        {
            if (lots[lot].GoodUntil < before)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The reason in words, kept with the order's line.</summary>
    public string Why()
    {
        var culture = CultureInfo.CurrentCulture;
        string Amount(double quantity) => Need.IsRoll
            ? string.Create(culture, $"{quantity / 1000:0.#} m") : string.Create(culture, $"{Math.Round(quantity, quantity < 10 ? 1 : 0):0.#}");
        var sheetOrMetre = Need.IsRoll ? 1000 : 1; // what goes slower than one of these a day is told over a month, or a year
        var goes = Need.PerDay <= 0 ? "Nothing went lately"
            : Need.PerDay >= sheetOrMetre ? $"{Amount(Need.PerDay)} a day"
            : Need.PerDay * 30 >= sheetOrMetre ? $"{Amount(Need.PerDay * 30)} a month"
            : $"{Amount(Need.PerDay * 365)} a year";
        var promised = Need.Promised > 0 ? $" and {Amount(Need.Promised)} promised" : "";
        var coming = Need.OnTheWay > 0 ? $", {Amount(Need.OnTheWay)} on the way" : "";
        var expires = Outdates > 0 ? $" {Amount(Outdates)} of it will go out of date first." : "";
        var crossed = UnderReserveOn is { } day
            ? $" Without this it is {(Need.Reserve > 0 ? $"under its reserve of {Amount(Need.Reserve)}" : "used up")} by {day.ToString("dddd d MMMM", culture)}."
            : "";
        return $"{goes}{promised}; {Amount(Need.OnShelf)} left{coming}.{expires}{(Packs > 0 ? crossed : "")}";
    }

    private static long Unit(ItemNeed need, double days)
    {
        var spread = need.PerDay > 0 ? need.VariancePerDay / need.PerDay / 4 : 1;
        var coarsest = Math.Max(need.Pack, need.PerDay * days) / Steps;
        return Math.Max(1, (long)Math.Max(coarsest, Math.Min(spread, need.Pack / 20.0)));
    }

    private static CountDistribution Wanted(ItemNeed need, DateOnly today, int days, long unit, Lateness late)
    {
        var usual = need.Week.UsualDays(today, days) + late.Mean;
        var mean = need.PerDay * usual;
        var unknown = mean > 0 ? Math.Max(0, 1 - (need.Promised / mean)) : 0;
        var wait = need.PerDay * late.Deviation;
        var variance = (need.VariancePerDay * (days + late.Mean)) + (need.RateVariance * usual * usual) + (wait * wait);
        return CountDistribution.Of(mean * unknown / unit, variance * unknown / ((double)unit * unit));
    }

    private static DateOnly? UnderOn(ItemNeed need, long outdates, DateOnly today)
    {
        var free = need.OnShelf - outdates - need.Promised - need.Reserve;
        return free < 0 ? today : need.PerDay <= 0 ? null : free / need.PerDay > 3_650 ? null : today.AddDays((int)(free / need.PerDay));
    }
}
