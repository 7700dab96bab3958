using Microsoft.AspNetCore.Components;
using Goodsheet.App.Shelf;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Shelf;

/// <summary>Asks what came, runs one use case, goes to the new lot's page.</summary>
public sealed partial class PutAwayPage
{
    private ShowShelf.Page? shelf;
    private Refusal? refusal;
    private string? quantityError;

    [SupplyParameterFromForm] private Form? Box { get; set; }

    [SupplyParameterFromQuery] public string? Paper { get; set; }

    protected override async Task OnInitializedAsync()
    {
        Box ??= new() { Paper = Paper ?? "" };
        shelf = await ShowShelf.RunAsync(new());
    }

    private async Task PutAwayAsync()
    {
        var isRoll = shelf!.Formats.Any(f => f.Code.Value == Box!.Format && f.IsRoll);
        var quantity = Typed.Quantity(Box!.Quantity, isRoll);
        if (quantity is null)
        {
            quantityError = isRoll
                ? $"“{Box.Quantity}” cannot be read as metres."
                : $"Sheets are whole. “{Box.Quantity}” cannot be read as a number of sheets.";
            return;
        }

        var outcome = await PutAway.RunAsync(new(
            new(Box.Command), Visitor.Name, new(Box.Paper), new FormatCode(Box.Format), quantity.Value, Box.BestBefore, Box.Place.Trim(),
            MakersNumber: Box.MakersNumber.Trim() is { Length: > 0 } number ? number : null, ForTestsOnly: Box.ForTestsOnly));
        refusal = outcome.Refusal;
        if (outcome.Granted)
        {
            Navigation.NavigateTo($"/shelf/lots/{outcome.Value.Lot}?new=true");
        }
    }

    /// <summary>What the person types. The command is made with the form, so that a second post of it does nothing.</summary>
    private sealed class Form
    {
        public Guid Command { get; set; } = CommandId.New().Value;

        public string Paper { get; set => field = value ?? ""; } = "";

        public string Format { get; set => field = value ?? ""; } = "";

        public string Quantity { get; set => field = value ?? ""; } = "";

        public DateOnly? BestBefore { get; set; }

        public string MakersNumber { get; set => field = value ?? ""; } = "";

        public string Place { get; set => field = value ?? ""; } = "";

        public bool ForTestsOnly { get; set; }
    }
}
