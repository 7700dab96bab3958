namespace Goodsheet.Room.Orders;

/// <summary>What can be done when a print is promised and its paper does not suffice.</summary>
public enum WayKind
{
    CutDown,
    OtherPaper,
    OtherSupplier,
    TellClient,
}

/// <summary>One way out, with what it costs, when the prints are ready by it, and what has to be bought again because of it.</summary>
/// <param name="What">In a few words.</param>
/// <param name="How">What to do, and what to look out for.</param>
/// <param name="Ready">When the prints are dry and the room is open, at the earliest; none when nobody knows.</param>
/// <param name="Cost">Paper, carriage and hands in the room's money; none where a price is not written down.</param>
/// <param name="CostHow">What is in the cost, or what is missing for it.</param>
/// <param name="Restock">What it leaves on the shelf, and what is to be ordered because of it.</param>
/// <param name="WhyNot">Why it does not serve, when it does not.</param>
/// <param name="Link">Where it is done.</param>
public sealed record WayOut(
    WayKind Kind, string What, string How, DateTimeOffset? Ready, decimal? Cost, string CostHow, string Restock, string? WhyNot, string Link)
{
    /// <summary>Among ways of one kind: the better first, whatever it costs.</summary>
    public int Place { get; init; }

    public bool InTime(DateTimeOffset promised) => WhyNot is null && Ready <= promised;

    /// <summary>What serves in time first, the promised paper before another, the cheapest at the head and of other papers the best; then what serves late, the soonest at the head; then what does not serve.</summary>
    public static IReadOnlyList<WayOut> Ranked(IEnumerable<WayOut> ways, DateTimeOffset promised) =>
    [
        .. ways.OrderBy(w => w.WhyNot is not null).ThenByDescending(w => w.InTime(promised))
            .ThenBy(w => w.InTime(promised) ? DateTimeOffset.MinValue : w.Ready ?? DateTimeOffset.MaxValue)
            .ThenBy(w => w.Kind is WayKind.OtherPaper).ThenBy(w => w.Place).ThenBy(w => w.Cost ?? decimal.MaxValue).ThenBy(w => w.Kind),
    ];
}
