using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Shelf;

/// <summary>What a lot may be used for.</summary>
public enum LotCondition
{
    Sound = 1,
    TestsOnly = 2,
    Scrap = 3,
}

/// <summary>One delivery of one item. How much is left is in the ledger, not here.</summary>
public sealed class Lot
{
    public required LotCode Code { get; init; }

    public required PaperCode Paper { get; init; }

    public required FormatCode Format { get; init; }

    public required DateOnly Received { get; init; }

    /// <summary>The last day the coating is good by the maker's word; none for uncoated paper.</summary>
    public DateOnly? BestBefore { get; set; }

    /// <summary>The day up to which it was proved good after its best before, by a recorded decision.</summary>
    public DateOnly? ExtendedTo { get; set; }

    public DateOnly? Opened { get; set; }

    public string Place { get; set; } = "";

    public LotCondition Condition { get; set; } = LotCondition.Sound;

    /// <summary>Why it is not sound.</summary>
    public string? ConditionWhy { get; set; }

    /// <summary>The supplier it came from, if it was bought.</summary>
    public Buying.SupplierCode? Supplier { get; init; }

    /// <summary>The maker's own number on the box.</summary>
    public string? MakersNumber { get; init; }

    /// <summary>The lot it was cut from, if it was.</summary>
    public LotCode? CutFrom { get; init; }

    public ItemCode Item => new(Paper, Format);

    /// <summary>The last day a client's print may be made on it.</summary>
    public DateOnly? GoodUntil => ExtendedTo > BestBefore ? ExtendedTo : BestBefore;

    public bool IsOutOfDate(DateOnly today) => GoodUntil < today;
}
