using Microsoft.AspNetCore.Components;
using Goodsheet.App.Buying;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Buying;

/// <summary>One supplier: when to order, prices, closed days, deliveries, terms.</summary>
public sealed partial class SupplierPage
{
    private ShowSupplier.Page? all;
    private Refusal? refusal;
    private string? done;
    private ImportPrices.Done? report;

    [Inject] private ShowSupplier ShowSupplier { get; set; } = null!;

    [Inject] private ChangeSupplier ChangeSupplier { get; set; } = null!;

    [Inject] private CloseSupplier CloseSupplier { get; set; } = null!;

    [Inject] private SetPrice SetPrice { get; set; } = null!;

    [Inject] private ImportPrices ImportPrices { get; set; } = null!;

    [Parameter, EditorRequired] public required string Code { get; set; }

    [SupplyParameterFromForm(FormName = "terms")] private SupplierForm? Form { get; set; }

    [SupplyParameterFromForm(FormName = "price")] private PriceForm? Price { get; set; }

    [SupplyParameterFromForm(FormName = "list")] private ListForm? List { get; set; }

    [SupplyParameterFromForm(FormName = "closed")] private ClosedForm? Closed { get; set; }

    private SupplierCode Supplier => new(Code);

    protected override async Task OnInitializedAsync()
    {
        all = await ShowSupplier.RunAsync(Supplier);
        if (all is not null)
        {
            Form ??= SupplierForm.Of(all.Sending);
            Price ??= new() { From = all.Today };
            List ??= new();
            Closed ??= new() { First = all.Today, Last = all.Today };
        }
    }

    private bool IsRoll(FormatCode format) => all!.Items.Any(i => i.Item.Format == format && i.IsRoll);

    private async Task ChangeAsync() => await SayAsync(await ChangeSupplier.RunAsync(new(Supplier, Form!.Terms())), _ => "The terms are changed.");

    private async Task CloseAsync() => await SayAsync(
        await CloseSupplier.RunAsync(new(Supplier, Closed!.First, Closed.Last, Closed.Why, Closed.OpenAgain)),
        d => $"{d.Days} {(d.Days == 1 ? "day is" : "days are")} {(Closed.OpenAgain ? "open again" : "closed")}.");

    private async Task PriceAsync()
    {
        var item = Price!.Item.Split('|');
        if (item.Length != 2 || Typed.Quantity(Price.Pack, IsRoll(new(item[1]))) is not { } pack)
        {
            refusal = new NotAPack(Price.Pack);
            return;
        }

        await SayAsync(
            await SetPrice.RunAsync(new(Supplier, new(new(item[0]), new(item[1])), Price.From, Price.FromPacks, pack, Price.Costs)),
            d => d.BoughtFrom == Supplier ? "The price is set." : $"The price is set. The item is bought from {d.BoughtFrom} all the same.");
    }

    private async Task ListAsync()
    {
        var outcome = await ImportPrices.RunAsync(new(Supplier, List!.Csv, !List.ForGood));
        report = outcome.Value;
        await SayAsync(outcome, d => d.TakenIn ? $"{d.Lines.Count} prices are taken in."
            : d.Wrong > 0 ? $"{d.Wrong} of {d.Lines.Count} lines are wrong. Nothing was taken in." : $"{d.Lines.Count} lines can be read. Nothing was taken in yet.");
    }

    private async Task SayAsync<T>(Outcome<T> outcome, Func<T, string> say)
        where T : notnull
    {
        (refusal, done) = (outcome.Refusal, outcome.Granted ? say(outcome.Value) : null);
        all = await ShowSupplier.RunAsync(Supplier);
    }

    private sealed record NotAPack(string Text) : Refusal($"“{Text}” cannot be read as a pack: whole sheets, or metres of a roll. No price was set.");

    private sealed class PriceForm
    {
        public string Item { get; set => field = value ?? ""; } = "";

        public string Pack { get; set => field = value ?? ""; } = "";

        public int FromPacks { get; set; } = 1;

        public decimal Costs { get; set; }

        public DateOnly From { get; set; }
    }

    private sealed class ListForm
    {
        public string Csv { get; set => field = value ?? ""; } = "";

        public bool ForGood { get; set; }
    }

    private sealed class ClosedForm
    {
        public DateOnly First { get; set; }

        public DateOnly Last { get; set; }

        public string Why { get; set => field = value ?? ""; } = "";

        public bool OpenAgain { get; set; }
    }
}
