namespace Goodsheet.Room.Buying;

/// <summary>One item while its room is run forward.</summary>
internal sealed class ItemRun
{
    private readonly ItemAhead item;
    private readonly RunningShelf shelf = new();
    private readonly RecentDays recent;
    private long bought;
    private int daysOwed;
    private double promisedFill;
    private double promisedOf;

    public ItemRun(ItemAhead item, DateOnly today)
    {
        this.item = item;
        recent = new(today.AddDays(-item.Past.Count).DayOfWeek, RoomRun.RateDays);
        foreach (var wanted in item.Past)
        {
            recent.Add(wanted);
        }

        foreach (var (left, until) in item.Need.Lots)
        {
            shelf.Put(left, until is { } last ? last.DayNumber - today.DayNumber + 1 : double.PositiveInfinity);
        }

        if (item.Need.OnTheWay > 0)
        {
            shelf.Order(item.Need.OnTheWay, 1, Until(1));
        }
    }

    /// <summary>Of what is on the shelf, in money.</summary>
    public double Worth => shelf.OnShelf * (item.PackPrice ?? 0) / Pack;

    private long Pack => item.Need.Pack;

    /// <summary>Deliveries come, what is out of date goes. What is on the way when the run begins comes on its second day.</summary>
    public void Morning(int day, bool countFromHere)
    {
        if (countFromHere)
        {
            shelf.CountFromHere();
            (bought, daysOwed, promisedFill, promisedOf) = (0, 0, 0, 0);
        }

        shelf.AdvanceTo(day);
    }

    /// <summary>Whether it is ordered today; what that costs, or nothing.</summary>
    public double? Look(DateOnly date, Promise promise, double comes, AheadRule rule, Lateness late)
    {
        var position = shelf.OnShelf - shelf.Owed + shelf.OnTheWay;
        var packs = 0;
        if (rule.BoxesOfEach is { } boxes)
        {
            packs = position > (boxes - 1) * Pack ? 0 : (int)(((boxes * Pack) - position + Pack - 1) / Pack);
        }
        else
        {
            var goes = ItemDemand.Of(recent, item.Method);
            var advice = Reorder.Of(NeedOn(date, goes), promise, date, rule.FillRate, late);
            packs = advice.Packs;
            promisedFill += advice.Level.FillRate * goes.PerDay;
            promisedOf += goes.PerDay;
        }

        if (packs == 0)
        {
            return null;
        }

        shelf.Order(packs * Pack, comes, Until(comes));
        bought += packs * Pack;
        return packs * (item.PackPrice ?? 0);
    }

    /// <summary>The day's work takes what it wants, at noon: the stock of the day is that of its morning and its evening.</summary>
    public void Use(int day, long wanted)
    {
        recent.Add(wanted);
        shelf.AdvanceTo(day + 0.5);
        shelf.Take(wanted);
        daysOwed += shelf.Owed > 0 ? 1 : 0;
    }

    public ItemTally Tally(int days, double price)
    {
        shelf.AdvanceTo(shelf.Now + 0.5);
        var (wanted, given) = (shelf.Wanted / (double)Pack, shelf.GivenAtOnce / (double)Pack);
        return new(
            shelf.Held / days / Pack, wanted, given, shelf.Outdated / (double)Pack, bought / (double)Pack, daysOwed,
            promisedOf > 0 ? promisedFill / promisedOf : 1, item.PackPrice * price);
    }

    private double Until(double comes) => item.KeepsDays is { } keeps ? comes + keeps : double.PositiveInfinity;

    private ItemNeed NeedOn(DateOnly date, ItemDemand goes)
    {
        var lots = new (long, DateOnly?)[shelf.Lots.Count];
        for (var lot = 0; lot < lots.Length; lot++)
        {
            var (left, until) = shelf.Lots[lot];
            lots[lot] = (left, double.IsPositiveInfinity(until) ? null : date.AddDays((int)Math.Ceiling(until - shelf.Now) - 1));
        }

        return item.Need with
        {
            Lots = lots,
            OnTheWay = shelf.OnTheWay,
            Promised = shelf.Owed,
            PerDay = goes.PerDay,
            VariancePerDay = goes.VariancePerDay,
            RateVariance = goes.RateVariance,
            Week = goes.Week,
        };
    }
}
