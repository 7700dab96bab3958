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

    /// <summary>The way it is to be sent.</summary>
    public required string Way { get; set; }

    public PurchaseState State { get; set; } = PurchaseState.Proposed;

    public required DateTimeOffset ProposedAt { get; init; }

    public DateTimeOffset? SentAt { get; set; }

    public PersonName? SentBy { get; set; }

    /// <summary>The day the supplier's own calendar gives for an order sent when this one was.</summary>
    public DateOnly? PromisedOn { get; set; }

    /// <summary>The day its last delivery came.</summary>
    public DateOnly? CameOn { get; set; }

    /// <summary>Why it was cancelled, or closed with something still missing.</summary>
    public string EndedWhy { get; set; } = "";

    public bool IsOnTheWay => State is PurchaseState.Sent or PurchaseState.PartDelivered;

    /// <summary>A proposal may be changed; what was sent may not.</summary>
    public Outcome<PurchaseOrder> MayChange() => State is PurchaseState.Proposed ? this : new OrderWasSent(Number, State);

    /// <summary>Goods come in against what was sent and is still open.</summary>
    public Outcome<PurchaseOrder> MayCome() => IsOnTheWay ? this : new NothingIsOnTheWay(Number, State);

    /// <summary>Books what came: part of it, or the last of it.</summary>
    public void Came(DateOnly day, bool all) => (CameOn, State) = (day, all ? PurchaseState.Closed : PurchaseState.PartDelivered);
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
    public decimal? Price { get; set; }

    /// <summary>Why it was proposed, kept with it.</summary>
    public required string Reason { get; init; }

    /// <summary>Sheets or mm that came so far and were put away.</summary>
    public long Came { get; set; }

    /// <summary>How much came damaged and went back or to scrap.</summary>
    public long CameDamaged { get; set; }

    /// <summary>How much came that was not what was ordered, and went back.</summary>
    public long CameWrong { get; set; }

    public long Wanted => Packs * PackSize;

    /// <summary>Sheets or mm still to come: what was damaged or wrong has to come again.</summary>
    public long Missing => Math.Max(0, Wanted - Came);

    public decimal? Sum => Price * Packs;
}

/// <summary>One delivery note: what a supplier brought at one time.</summary>
public sealed class Delivery
{
    public required SupplierCode Supplier { get; init; }

    /// <summary>The number on the delivery note, in capitals and without spaces at its ends: it comes once.</summary>
    public required string Note { get; init; }

    public required int Order { get; init; }

    public required DateOnly CameOn { get; init; }

    /// <summary>Working days the supplier took beyond what it promised; below 0 when it was early.</summary>
    public required int DaysLate { get; init; }

    /// <summary>Whether all that was still missing came, whole and right.</summary>
    public required bool Complete { get; init; }

    public required PersonName By { get; init; }

    /// <summary>The same note is the same note however it is typed.</summary>
    public static string Plain(string note) => string.Join(' ', note.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToUpperInvariant();
}

public sealed record OrderWasSent(int Order, PurchaseState State)
    : Refusal($"Order {Order} is {State switch
    {
        PurchaseState.Cancelled => "cancelled",
        PurchaseState.Closed => "closed",
        _ => "sent",
    }} and cannot be changed. Propose another for what is still wanted.");

public sealed record NothingIsOnTheWay(int Order, PurchaseState State)
    : Refusal(State is PurchaseState.Proposed
        ? $"Order {Order} was not sent yet. Mark it as sent first, then its goods can come in."
        : $"Nothing more of order {Order} is awaited: it is {(State is PurchaseState.Closed ? "closed" : "cancelled")}. Put what came away without an order.");
