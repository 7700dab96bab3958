using System.Globalization;
using Goodsheet.Room.Orders;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Orders;

/// <summary>How the states and facts of an order are said.</summary>
internal static class OrderWords
{
    private const int LongestWhy = 80;

    public static string State(Order order) => order switch
    {
        { State: OrderState.OnHold } => $"on hold: {Short(order.StateWhy)}",
        { State: OrderState.Cancelled } => $"cancelled: {Short(order.StateWhy)}",
        { State: OrderState.Done, OutAt: not null } => order.Out is HandOut.Sent ? "sent" : "collected",
        { State: OrderState.Done } => "printed",
        { Asks: not ApprovalOf.Nothing, ApprovedAt: null } => $"{OrderRules.Word(order.Asks)} not approved yet",
        { ApprovedAt: not null } => "approved",
        { State: OrderState.Quoted } => "quoted",
        _ => "to print",
    };

    public static MarkState MarkOf(Order order) => order switch
    {
        { State: OrderState.OnHold } => MarkState.Stop,
        { State: OrderState.Cancelled } => MarkState.Gone,
        { State: OrderState.Done } => MarkState.Good,
        { Asks: not ApprovalOf.Nothing, ApprovedAt: null } => MarkState.Wait,
        _ => MarkState.Good,
    };

    public static string Of(OrderFact fact) => fact.Kind switch
    {
        FactKind.QuotationSent => "Quotation sent",
        FactKind.ProofSent => "Proof sent",
        FactKind.Approved => $"Approved by {fact.ByClient}",
        FactKind.PutOnHold => "Put on hold",
        FactKind.Released => "Goes on",
        FactKind.Changed => "Changed",
        FactKind.DepositNoted => $"{(fact.Amount < 0 ? "Paid back" : "Deposit")} {Math.Abs(fact.Amount ?? 0).ToString("0.00", CultureInfo.CurrentCulture)}",
        FactKind.Decided => "Decided to print",
        FactKind.Collected => "Collected",
        FactKind.Sent => "Sent",
        FactKind.Cancelled => "Cancelled",
        FactKind.DriedShort => "Went on before the prints were dry",
        FactKind.ClaimSent => "Claim sent to the supplier",
        FactKind.ComplaintSettled => "Complaint settled",
        FactKind.StripJudged => "Test strip judged",
        _ => "Complaint",
    };

    private static string Short(string why) => why.Length <= LongestWhy ? why : $"{why[..LongestWhy]}…";
}
