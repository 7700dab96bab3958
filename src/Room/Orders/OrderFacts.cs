using Goodsheet.Room.People;

namespace Goodsheet.Room.Orders;

/// <summary>What a client is asked to approve before a print is begun.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum ApprovalOf
{
    Nothing = 0,
    Quotation = 1,
    Proof = 2,
}

/// <summary>What happened to an order.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum FactKind
{
    QuotationSent = 1,
    ProofSent = 2,
    Approved = 3,
    PutOnHold = 4,
    Released = 5,
    Changed = 6,
    DepositNoted = 7,

    /// <summary>A person decided to begin a run though the order is on hold or not approved.</summary>
    Decided = 8,
    Collected = 9,
    Sent = 10,
    Cancelled = 11,
    Complaint = 12,

    /// <summary>The keeper said of a printed test strip: go on, or change.</summary>
    StripJudged = 13,

    /// <summary>A person went on before the prints were dry, and said why.</summary>
    DriedShort = 14,

    /// <summary>A claim went to a supplier.</summary>
    ClaimSent = 15,
    ComplaintSettled = 16,
}

/// <summary>One thing that happened to an order, with who wrote it down. Facts are only added.</summary>
public sealed class OrderFact
{
    public required int Order { get; init; }

    public required int Number { get; init; }

    public required FactKind Kind { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    /// <summary>What there is to know of it: the reason, what was changed, where the signed print lies.</summary>
    public string Text { get; init; } = "";

    /// <summary>Who approved it, on the client's side.</summary>
    public string ByClient { get; init; } = "";

    /// <summary>The pictures it is about as they were, by name and the first letters of their SHA-256.</summary>
    public string Files { get; init; } = "";

    /// <summary>Which proof: paper, profile and intent.</summary>
    public string Proof { get; init; } = "";

    /// <summary>A deposit, in the room's currency.</summary>
    public decimal? Amount { get; init; }
}

/// <summary>Which orders may go to a printer.</summary>
public static class OrderRules
{
    /// <summary>Why no print of it may be begun; none when it may.</summary>
    public static Refusal? Stop(Order order) => order switch
    {
        { State: OrderState.OnHold } => new OnHold(order.Number, order.StateWhy),
        { State: OrderState.Cancelled } => new IsCancelled(order.Number),
        { Asks: not ApprovalOf.Nothing, ApprovedAt: null } => new NotApproved(order.Number, order.Asks),
        _ => null,
    };

    /// <summary>The state it has when nothing holds it.</summary>
    public static OrderState Free(Order order) =>
        order.Asks is ApprovalOf.Nothing || order.ApprovedAt is not null ? OrderState.Approved : OrderState.Quoted;

    public static string Word(ApprovalOf asks) => asks is ApprovalOf.Quotation ? "quotation" : "proof";

    public sealed record OnHold(int Order, string Why) : Refusal($"Order {Order} is on hold: {Why}");

    public sealed record NotApproved(int Order, ApprovalOf Asks) : Refusal($"The {Word(Asks)} of order {Order} is not approved yet.");

    public sealed record IsCancelled(int Order) : Refusal($"Order {Order} is cancelled.");
}
