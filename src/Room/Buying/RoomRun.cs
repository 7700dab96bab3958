namespace Goodsheet.Room.Buying;

/// <summary>Runs a room forward day by day, buying by the very rule that proposes its orders.</summary>
/// <remarks>
/// In the morning deliveries come and what is out of date goes; then, before the cut-off, each supplier's items are looked at and
/// ordered; then what the day wants is taken. The rate of each item is reckoned again from the last half year at each look. What is
/// wanted and not there is owed and given from the next delivery.
/// </remarks>
public sealed class RoomRun
{
    /// <summary>Thirty years: beyond, no room stays as it is.</summary>
    public const int MostDays = 30 * 366;

    /// <summary>The rate is reckoned from so many days, as the room does.</summary>
    public const int RateDays = 182;

    private static readonly TimeSpan JustBefore = TimeSpan.FromMinutes(1);

    private readonly RoomAhead room;
    private readonly AheadRule rule;
    private readonly int warmUp;
    private readonly int days;
    private readonly Promise?[][] promises;

    /// <param name="warmUp">Days that are run and not counted.</param>
    /// <param name="days">Days that are counted.</param>
    public RoomRun(RoomAhead room, AheadRule rule, int warmUp, int days)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(warmUp);
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(warmUp + days, MostDays);
        (this.room, this.rule, this.warmUp, this.days) = (room, rule, warmUp, days);
        promises = [.. room.Suppliers.Select(PromisesOf)];
    }

    /// <summary>Once through; the same seed and demand give the same figures.</summary>
    public RunTally Run(DemandOfDay demand, int seed)
    {
        var chance = new Chance(seed);
        var shelves = room.Items.Select(i => new ItemRun(i, room.Today)).ToArray();
        var baskets = new double[room.Suppliers.Count];
        var wanted = new long[shelves.Length];
        var (orders, carriage) = (0, 0.0);
        var weeks = new double[days / 7];
        for (var day = 0; day < warmUp + days; day++)
        {
            if (day == warmUp)
            {
                (orders, carriage) = (0, 0);
            }

            demand(day, wanted);
            Array.Fill(baskets, -1);
            for (var item = 0; item < shelves.Length; item++)
            {
                shelves[item].Morning(day, day == warmUp);
                var supplier = room.Items[item].Supplier;
                if (promises[supplier][day] is { } promise)
                {
                    var comes = Comes(supplier, promise, day, ref chance);
                    if (shelves[item].Look(room.Today.AddDays(day), promise, comes, rule, room.Suppliers[supplier].Late) is { } sum)
                    {
                        baskets[supplier] = Math.Max(0, baskets[supplier]) + (sum * rule.Prices.GetValueOrDefault(supplier, 1));
                    }
                }

                shelves[item].Use(day, wanted[item]);
            }

            if (day >= warmUp && (day - warmUp) % 7 == 6)
            {
                foreach (var shelf in shelves)
                {
                    weeks[(day - warmUp) / 7] += shelf.Worth;
                }
            }

            for (var supplier = 0; supplier < baskets.Length; supplier++)
            {
                if (baskets[supplier] >= 0)
                {
                    orders++;
                    carriage += room.Suppliers[supplier].CarriageFreeFrom <= baskets[supplier] ? 0 : room.Suppliers[supplier].Carriage;
                }
            }
        }

        return new([.. shelves.Select((s, i) => s.Tally(days, rule.Prices.GetValueOrDefault(room.Items[i].Supplier, 1)))], orders, carriage, days, weeks);
    }

    /// <summary>For each day what an order sent before its cut-off may count on; none on a day without one.</summary>
    private Promise?[] PromisesOf(SupplierAhead supplier)
    {
        var found = new Promise?[warmUp + days];
        DateOnly? later = null;
        for (var day = warmUp + days + 14; day >= 0; day--)
        {
            var date = room.Today.AddDays(day);
            if (!supplier.Clock.Works.IsWorkingDay(date) || !rule.OrderDays.Includes(date.DayOfWeek))
            {
                continue;
            }

            var comes = supplier.Clock.ComesOn(date, supplier.LeadDays);
            if (day < found.Length)
            {
                var cutOff = supplier.Clock.CutOffOn(date, supplier.CutOff) - JustBefore;
                found[day] = later is { } then && then > comes ? new(date, comes, cutOff, date, then) : null;
            }

            later = comes;
        }

        return found;
    }

    private double Comes(int supplier, Promise promise, int day, ref Chance chance)
    {
        var (late, comes) = (room.Suppliers[supplier].Late, promise.ComesOn);
        if (late.Chance > 0 && chance.Below(1_000_000) < late.Chance * 1_000_000)
        {
            comes = room.Suppliers[supplier].Clock.Delivers.OnOrAfter(room.Suppliers[supplier].Clock.Works.Plus(comes, late.LateDays[chance.Below(late.LateDays.Count)]));
        }

        var on = comes.DayNumber - room.Today.DayNumber;
        var stands = rule.Outage is { } o && o.Supplier == supplier && on >= o.From && day < o.From + o.Days ? o : null;
        return stands is null ? on : stands.From + stands.Days + (on - Math.Max(day, stands.From));
    }
}
