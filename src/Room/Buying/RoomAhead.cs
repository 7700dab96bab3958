namespace Goodsheet.Room.Buying;

/// <summary>A room as it stands today, to be run forward.</summary>
public sealed record RoomAhead(DateOnly Today, IReadOnlyList<ItemAhead> Items, IReadOnlyList<SupplierAhead> Suppliers);

/// <summary>An item, its past day by day, and what a box of it costs.</summary>
/// <param name="Need">As it stands today.</param>
/// <param name="Method">How its rate is reckoned; kept while the room runs.</param>
/// <param name="Past">Wanted day by day up to yesterday, the oldest first.</param>
/// <param name="Supplier">Its place in the room's list.</param>
/// <param name="PackPrice">In the room's currency; none when it has no price.</param>
/// <param name="KeepsDays">A new lot can be used so long; none if it has no date.</param>
public sealed record ItemAhead(ItemNeed Need, DemandMethod Method, IReadOnlyList<double> Past, int Supplier, double? PackPrice, int? KeepsDays);

public sealed record SupplierAhead(SupplierClock Clock, TimeOnly CutOff, int LeadDays, Lateness Late, double Carriage, double? CarriageFreeFrom);

/// <summary>By what rule the room buys while it runs, and what befalls it.</summary>
/// <param name="FillRate">The part of what is wanted that the shelf is to give at once.</param>
public sealed record AheadRule(double FillRate)
{
    /// <summary>The days on which the room sends orders.</summary>
    public WorkingWeek OrderDays { get; init; } = WorkingWeek.EveryDay;

    /// <summary>Keep so many boxes of every item, whatever goes, instead of the room's own rule.</summary>
    public int? BoxesOfEach { get; init; }

    /// <summary>A supplier that packs and brings nothing for a while, which nobody knew before.</summary>
    public Outage? Outage { get; init; }

    /// <summary>What a supplier's prices are multiplied by; 1 for those that are not named.</summary>
    public IReadOnlyDictionary<int, double> Prices { get; init; } = new Dictionary<int, double>();
}

/// <param name="Supplier">Its place in the room's list.</param>
/// <param name="From">Days from today.</param>
public sealed record Outage(int Supplier, int From, int Days);

/// <summary>Says what is wanted of each item on a day from today on; called once for each day, in turn.</summary>
public delegate void DemandOfDay(int day, long[] wanted);
