using Microsoft.AspNetCore.Components;
using Goodsheet.App.Buying;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Web.Look;
using Goodsheet.Web.People;

namespace Goodsheet.Web.Buying;

/// <summary>One order to a supplier, from proposal to its end.</summary>
public sealed partial class PurchasePage
{
    private ShowPurchase.Page? all;
    private Refusal? refusal;
    private string? done;

    [Inject] private ShowPurchase ShowPurchase { get; set; } = null!;

    [Inject] private ChangeOrder ChangeOrder { get; set; } = null!;

    [Inject] private SendOrder SendOrder { get; set; } = null!;

    [Inject] private EndOrder EndOrder { get; set; } = null!;

    [Inject] private Visitor Visitor { get; set; } = null!;

    [Parameter, EditorRequired] public required int Number { get; set; }

    [SupplyParameterFromForm(FormName = "edit")] private EditLines? Edit { get; set; }

    [SupplyParameterFromForm(FormName = "send")] private SendForm? Send { get; set; }

    [SupplyParameterFromForm(FormName = "end")] private EndForm? End { get; set; }

    private bool Open => all!.Order.State is PurchaseState.Proposed;

    private DateOnly Today => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(all!.Now, Clock.LocalTimeZone).DateTime);

    private string Over => all!.Order is { SentAt: { } sent } order
        ? $"Order {Number}, sent {Words.Moment(sent, Clock.LocalTimeZone)} by {order.SentBy}"
        : $"Order {Number}, proposed {Words.Moment(all.Order.ProposedAt, Clock.LocalTimeZone)}, not sent";

    private string? Says => all!.Order.State switch
    {
        PurchaseState.Proposed => BuyingWords.Waiting(all.Promise, all.Now, Clock.LocalTimeZone),
        PurchaseState.Sent or PurchaseState.PartDelivered => $"Promised for {BuyingWords.Day(all.Order.PromisedOn!.Value)}.",
        _ => null,
    };

    protected override async Task OnInitializedAsync()
    {
        all = await ShowPurchase.RunAsync(Number);
        (Edit, Send, End) = (Edit ?? new() { Way = all?.Way.Name ?? "" }, Send ?? new(), End ?? new());
    }

    private async Task ChangeAsync()
    {
        var item = Edit!.Add.Split('|');
        var more = item.Length == 2 ? new ChangeOrder.More(new(new(item[0]), new(item[1])), 1) : null;
        await SayAsync(await ChangeOrder.RunAsync(new(Number, Edit.Packs, more, Edit.Way, item is [{ Length: > 0 } code] ? new(code) : null)), _ => "The order is changed.");
        Edit = new() { Way = all!.Way.Name };
    }

    private async Task SendAsync() => await SayAsync(
        await SendOrder.RunAsync(new(new(Send!.Command), Visitor.Name, Number)), d => $"Sent. It is promised for {BuyingWords.Day(d.PromisedOn)}.");

    private async Task EndAsync() => await SayAsync(
        await EndOrder.RunAsync(new(Number, End!.Why)), d => d.State is PurchaseState.Closed ? "The order is closed." : "The order is cancelled.");

    private async Task SayAsync<T>(Outcome<T> outcome, Func<T, string> say)
        where T : notnull
    {
        (refusal, done) = (outcome.Refusal, outcome.Granted ? say(outcome.Value) : null);
        all = await ShowPurchase.RunAsync(Number);
    }

    private sealed class EditLines
    {
        public Dictionary<int, int> Packs { get; set; } = [];

        public string Add { get; set => field = value ?? ""; } = "";

        public string Way { get; set => field = value ?? ""; } = "";
    }

    private sealed class SendForm
    {
        public Guid Command { get; set; } = CommandId.New().Value;
    }

    private sealed class EndForm
    {
        public string Why { get; set => field = value ?? ""; } = "";
    }
}
