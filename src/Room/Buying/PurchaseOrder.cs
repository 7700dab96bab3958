using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.Room.Buying;

public enum PurchaseState
{
    Proposed = 1,
    Sent = 2,
    PartDelivered = 3,
    Closed = 4,
    Cancelled = 5,
}

/// <summary>What is bought from one supplier at one time.</summary>
public sealed class PurchaseOrder
{
    public required int Number { get; init; }

    public required SupplierCode Supplier { get; init; }

    public PurchaseState State { get; set; } = PurchaseState.Proposed;

    public required DateTimeOffset ProposedAt { get; init; }

    public DateTimeOffset? SentAt { get; set; }

    public PersonName? SentBy { get; set; }

    /// <summary>The day the supplier's own calendar gives for an order sent when this one was.</summary>
    public DateOnly? PromisedOn { get; set; }

    public DateOnly? CameOn { get; set; }
}

/// <summary>One item of a purchase order.</summary>
public sealed class PurchaseLine
{
    public required int Order { get; init; }

    public required int Line { get; init; }

    public required PaperCode Paper { get; init; }

    public required FormatCode Format { get; init; }

    public required int Packs { get; set; }

    /// <summary>Sheets in a pack, or mm of a roll.</summary>
    public required long PackSize { get; init; }

    /// <summary>Of one pack when it was ordered; none if the room has no price for it.</summary>
    public decimal? Price { get; init; }

    /// <summary>Why it was proposed, kept with it.</summary>
    public required string Reason { get; init; }

    /// <summary>Sheets or mm that came so far.</summary>
    public long Came { get; set; }

    /// <summary>Of those, how much came damaged and went back or to scrap.</summary>
    public long CameDamaged { get; set; }

    public long Wanted => Packs * PackSize;
}
