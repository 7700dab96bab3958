using System.Globalization;
using Microsoft.AspNetCore.Components;
using Goodsheet.App.Printers;
using Goodsheet.App.Shelf;
using Goodsheet.Room;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Shelf;

/// <summary>One lot, made for a phone: draw, count, spoil, and every move behind the number.</summary>
public sealed partial class LotPage
{
    private ShowLot.Page? lot;
    private IReadOnlyList<ShowPrinters.Line> printers = [];
    private IReadOnlyDictionary<PrinterCode, string> names = new Dictionary<PrinterCode, string>();
    private Refusal? refusal;
    private string? done;

    [Parameter, EditorRequired] public required string Code { get; set; }

    [SupplyParameterFromQuery] public bool New { get; set; }

    [SupplyParameterFromForm(FormName = "draw")] private DrawForm? Draw { get; set; }

    [SupplyParameterFromForm(FormName = "count")] private CountForm? Count { get; set; }

    private bool IsRoll => lot!.Format.IsRoll;

    private string Left => IsRoll
        ? (lot!.Balance.OnShelf / 1000.0).ToString("0.###", CultureInfo.CurrentCulture)
        : lot!.Balance.OnShelf.ToString(CultureInfo.CurrentCulture);

    private (MarkState State, string Text) State => lot!.Lot switch
    {
        { Condition: LotCondition.Scrap } => (MarkState.Gone, "scrap"),
        { Condition: LotCondition.TestsOnly } l => (MarkState.Gone, $"for tests only{(l.ConditionWhy is null ? "" : ": " + l.ConditionWhy)}"),
        var l when l.IsOutOfDate(DateOnly.FromDateTime(Clock.GetLocalNow().DateTime)) => (MarkState.Gone, "out of date"),
        _ => (MarkState.Good, "in order"),
    };

    protected override async Task OnInitializedAsync()
    {
        (Draw, Count) = (Draw ?? new(), Count ?? new());
        (printers, names) = (await ShowPrinters.RunAsync(), await ShowPrinters.NamesAsync());
        lot = await ShowLot.RunAsync(new(Code));
    }

    private Task DrawAsync() => RunAsync(Draw!.Quantity, quantity =>
        DrawPaper.RunAsync(new(new(Draw.Command), Visitor.Name, new(Code), quantity, new(Draw.Printer))),
        moved => $"Take {Words.Quantity(moved.Move!.Quantity, IsRoll)} of lot {Code} to {names.GetValueOrDefault(new(moved.Move.To.Name), moved.Move.To.Name)}.");

    private Task CountAsync() => RunAsync(Count!.Quantity, quantity =>
        CountLot.RunAsync(new(new(Count.Command), Visitor.Name, new(Code), quantity)),
        moved => moved.Move is { } move
            ? $"Counted. {Words.Quantity(move.Quantity, IsRoll)} {(move.To == Account.Shelf ? "more" : "less")} than the ledger had: moved to the count difference."
            : "Counted. The ledger agrees.");

    private async Task ToldAsync((Refusal? Refusal, string? Done) told)
    {
        (refusal, done) = told;
        lot = await ShowLot.RunAsync(new(Code));
    }

    private async Task RunAsync(string typed, Func<long, Task<Outcome<Moved>>> ask, Func<Moved, string> say)
    {
        if (Typed.Quantity(typed, IsRoll) is not { } quantity)
        {
            refusal = new CannotBeRead(typed, IsRoll);
            return;
        }

        var outcome = await ask(quantity);
        (refusal, done) = (outcome.Refusal, outcome.Granted ? say(outcome.Value) : null);
        (Draw, Count) = (new(), new());
        lot = await ShowLot.RunAsync(new(Code));
    }

    internal sealed record CannotBeRead(string Text, bool IsRoll)
        : Refusal($"“{Text}” cannot be read as {(IsRoll ? "metres" : "whole sheets")}. Nothing was moved.");

    private sealed class DrawForm
    {
        public Guid Command { get; set; } = CommandId.New().Value;

        public string Quantity { get; set => field = value ?? ""; } = "";

        public string Printer { get; set => field = value ?? ""; } = "";
    }

    private sealed class CountForm
    {
        public Guid Command { get; set; } = CommandId.New().Value;

        public string Quantity { get; set => field = value ?? ""; } = "";
    }
}
