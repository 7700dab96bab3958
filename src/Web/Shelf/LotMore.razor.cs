using Microsoft.AspNetCore.Components;
using Goodsheet.App.Shelf;
using Goodsheet.Room;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Shelf;

/// <summary>Spoiling, tests, cutting, place, dates and returns of a lot.</summary>
public sealed partial class LotMore
{
    private Trimming? trimming;

    [Parameter, EditorRequired] public required ShowLot.Page Lot { get; set; }

    /// <summary>Told what was refused or done.</summary>
    [Parameter, EditorRequired] public required EventCallback<(Refusal? Refusal, string? Done)> Told { get; set; }

    [SupplyParameterFromForm(FormName = "spoil")] private MoveForm Spoil { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "test")] private MoveForm Test { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "trim")] private MoveForm Trim { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "change")] private ChangeForm Change { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "extend")] private ExtendForm Extend { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "back")] private MoveForm Back { get; set; } = null!;

    private bool IsRoll => Lot.Format.IsRoll;

    private string Unit => IsRoll ? "Metres" : "Sheets";

    // Stays open over a form that was sent from inside it.
    private bool Open { get; set; }

    private LotCode Code => Lot.Lot.Code;

    protected override void OnInitialized()
    {
        Open = (Test ?? Trim ?? Back) is not null || Change is not null || Extend is not null;
        (Spoil, Test, Trim, Back) = (Spoil ?? new(), Test ?? new(), Trim ?? new(), Back ?? new());
        Change ??= new() { Place = Lot.Lot.Place, Condition = Lot.Lot.Condition };
        Extend ??= new() { Until = (Lot.Lot.GoodUntil ?? DateOnly.MinValue.AddYears(2000)).AddMonths(3) };
    }

    private Task SpoilAsync() => MoveAsync(Spoil.Quantity, quantity =>
        SpoilPaper.RunAsync(new(new(Spoil.Command), Visitor.Name, Code, quantity, Spoil.Cause)),
        moved => $"{Words.Quantity(moved.Move!.Quantity, IsRoll)} taken out as waste: {Words.Of(Spoil.Cause)}.");

    private Task TestAsync() => MoveAsync(Test.Quantity, quantity =>
        UseForTests.RunAsync(new(new(Test.Command), Visitor.Name, Code, quantity, Test.Why)),
        moved => $"{Words.Quantity(moved.Move!.Quantity, IsRoll)} taken for tests.");

    private Task BackAsync() => MoveAsync(Back.Quantity, quantity =>
        SendBackPaper.RunAsync(new(new(Back.Command), Visitor.Name, Code, quantity, Back.Why)),
        moved => $"{Words.Quantity(moved.Move!.Quantity, IsRoll)} go back to the supplier.");

    private async Task TrimAsync()
    {
        if (Typed.Quantity(Trim.Quantity, IsRoll) is not { } quantity)
        {
            await Told.InvokeAsync((new LotPage.CannotBeRead(Trim.Quantity, IsRoll), null));
            return;
        }

        if (Trim.Show && Lot.Smaller.FirstOrDefault(f => f.Code.Value == Trim.Into) is { } into)
        {
            var found = Trimming.Of(Lot.Format, Length.FromMillimetres(quantity), into);
            trimming = found.Value;
            await Told.InvokeAsync((found.Refusal, null));
            return;
        }

        var outcome = await TrimPaper.RunAsync(new(new(Trim.Command), Visitor.Name, Code, quantity, new(Trim.Into)));
        await Told.InvokeAsync((outcome.Refusal, outcome.Value is { } done ? $"{done.Pieces} sheets of {Trim.Into} are on the shelf as lot {done.Lot}. Write its number on them." : null));
    }

    private async Task ChangeAsync()
    {
        var outcome = await ChangeLot.RunAsync(new(Visitor.Name, Code, Change.Place, Change.Condition, Change.Why));
        await Told.InvokeAsync((outcome.Refusal, outcome.Granted ? "Written down." : null));
    }

    private async Task ExtendAsync()
    {
        var outcome = await ExtendLot.RunAsync(new(Visitor.Name, Code, Extend.Until, Extend.Proof));
        await Told.InvokeAsync((outcome.Refusal, outcome.Value is { } done ? $"Good for clients until {Words.Day(done.Until)}, on your word." : null));
    }

    private async Task MoveAsync(string typed, Func<long, Task<Outcome<Moved>>> ask, Func<Moved, string> say)
    {
        if (Typed.Quantity(typed, IsRoll) is not { } quantity)
        {
            await Told.InvokeAsync((new LotPage.CannotBeRead(typed, IsRoll), null));
            return;
        }

        var outcome = await ask(quantity);
        await Told.InvokeAsync((outcome.Refusal, outcome.Granted ? say(outcome.Value) : null));
    }

    private sealed class MoveForm
    {
        public Guid Command { get; set; } = CommandId.New().Value;

        public string Quantity { get; set => field = value ?? ""; } = "";

        public string Why { get; set => field = value ?? ""; } = "";

        public string Into { get; set => field = value ?? ""; } = "";

        public bool Show { get; set; }

        public WasteCause Cause { get; set; } = WasteCause.Handling;
    }

    private sealed class ChangeForm
    {
        public string Place { get; set => field = value ?? ""; } = "";

        public LotCondition Condition { get; set; } = LotCondition.Sound;

        public string Why { get; set => field = value ?? ""; } = "";
    }

    private sealed class ExtendForm
    {
        public DateOnly Until { get; set; }

        public string Proof { get; set => field = value ?? ""; } = "";
    }
}
