using Microsoft.AspNetCore.Components;
using Goodsheet.App.Shelf;
using Goodsheet.Room;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Web.Shelf;

/// <summary>One ink, tank, blade, coat or glove: putting in, putting away, counting.</summary>
public sealed partial class ConsumablePage
{
    private ShowConsumables.One? one;
    private IReadOnlyDictionary<PrinterCode, string> names = new Dictionary<PrinterCode, string>();
    private Refusal? refusal;
    private string? done;

    [Parameter, EditorRequired] public required string Code { get; set; }

    [SupplyParameterFromForm(FormName = "take")] private MoveForm Take { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "came")] private MoveForm Came { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "counted")] private MoveForm Counted { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "keep")] private KeepForm? Keep { get; set; }

    private Consumable Kept => one!.Stock.Consumable;

    private string Says => one!.Stock switch
    {
        { Left: 0 } => "None is left: order some.",
        { IsLow: true } => $"Low: more is ordered at {Kept.ReorderAt}.",
        _ => $"Enough: more is ordered at {Kept.ReorderAt}.",
    };

    protected override async Task OnInitializedAsync()
    {
        (Take, Came, Counted) = (Take ?? new() { Quantity = 1 }, Came ?? new(), Counted ?? new());
        names = await ShowPrinters.NamesAsync();
        one = await ShowConsumables.OneAsync(new(Code));
        if (one is not null)
        {
            Keep ??= new() { Name = Kept.Name, Millilitres = Kept.Millilitres, ReorderAt = Kept.ReorderAt, Place = Kept.Place, Price = Kept.Price, Supplier = Kept.Supplier?.Value ?? "" };
        }
    }

    private Task TakeAsync() => MoveAsync(Kept.GoesIntoPrinter ? Take.One() : Take, MoveConsumable.Doing.Take, d => Kept.GoesIntoPrinter ? $"It is in the printer. {d.Left} left." : $"Taken. {d.Left} left.");

    private Task PutAwayAsync() => MoveAsync(Came, MoveConsumable.Doing.PutAway, d => $"Put away. {d.Left} left.");

    private Task CountAsync() => MoveAsync(Counted, MoveConsumable.Doing.Count, d => d.Moves.Count == 0 ? "The count agrees." : $"Booked. {d.Left} left.");

    private async Task MoveAsync(MoveForm form, MoveConsumable.Doing what, Func<MoveConsumable.Done, string> say)
    {
        var outcome = await MoveConsumable.RunAsync(new(
            new(form.Command), Visitor.Name, new(Code), what, form.Quantity, form.BestBefore, form.MakersNumber, form.Lot, form.PastItsDate));
        (refusal, done) = (outcome.Refusal, outcome.Granted ? say(outcome.Value) : null);
        one = await ShowConsumables.OneAsync(new(Code));
    }

    private async Task KeepAsync()
    {
        var outcome = await KeepConsumable.RunAsync(new(
            new(Code), Keep!.Name, Kept.Kind, Kept.Printer, Kept.Channel, Keep.Millilitres, Keep.ReorderAt, Keep.Place, Keep.Supplier.Length > 0 ? new(Keep.Supplier) : null, Keep.Price));
        (refusal, done) = (outcome.Refusal, outcome.Granted ? "It is kept so from now on." : null);
        one = await ShowConsumables.OneAsync(new(Code));
    }

    private sealed class MoveForm
    {
        public Guid Command { get; set; } = CommandId.New().Value;

        public long Quantity { get; set; }

        public DateOnly? BestBefore { get; set; }

        public string MakersNumber { get; set => field = value ?? ""; } = "";

        public int Lot { get; set; } = 1;

        public bool PastItsDate { get; set; }

        /// <summary>What goes into a printer goes in one at a time; its form does not ask how many.</summary>
        public MoveForm One()
        {
            Quantity = 1;
            return this;
        }
    }

    private sealed class KeepForm
    {
        public string Name { get; set => field = value ?? ""; } = "";

        public double Millilitres { get; set; }

        public long ReorderAt { get; set; }

        public decimal? Price { get; set; }

        public string Place { get; set => field = value ?? ""; } = "";

        public string Supplier { get; set => field = value ?? ""; } = "";
    }
}
