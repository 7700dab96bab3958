using Microsoft.AspNetCore.Components;
using Goodsheet.App.Layout;
using Goodsheet.Room;
using Goodsheet.Web.People;

namespace Goodsheet.Web.Layout;

/// <summary>How the prints of a run lie, and what a person changes of it.</summary>
public sealed partial class LayoutPage
{
    private const double Seen = 0.1; // mm, as far as the fields say it

    private ShowLayout.Page? laid;
    private Refusal? refusal;
    private FillRun.MoreThanWait? tooMany;
    private string? done;

    [Inject] private ShowLayout ShowLayout { get; set; } = null!;

    [Inject] private ChangeLayout ChangeLayout { get; set; } = null!;

    [Inject] private FillRun FillRun { get; set; } = null!;

    [Inject] private Visitor Visitor { get; set; } = null!;

    [Parameter, EditorRequired] public required int Number { get; set; }

    [SupplyParameterFromForm(FormName = "edit")] private ActForm Do { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "move")] private MoveForm Place { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "fill")] private FillForm Fill { get; set; } = null!;

    private string Finding => laid!.IsRoll ? $"{laid.Layout.Prints} prints on {laid.Layout.Needs} mm" : $"{laid.Layout.Prints} prints on {laid.Layout.Needs} {(laid.Layout.Needs == 1 ? "sheet" : "sheets")}";

    private string Detail => $"{laid!.Layout.UsedPercent:0} % of the paper is used. " + (laid.Layout switch
    {
        { Least: 0 } => "",
        { IsBest: true } => "No layout takes less.",
        { IsRoll: true } l => $"None can take less than {l.Least:0} mm.",
        var l => $"None can take fewer than {l.Least:0}.",
    });

    /// <summary>One print of each sheet that is drawn.</summary>
    private IEnumerable<ShowLayout.Print> Movable => laid is null ? [] : laid.Prints.Where(p => laid.Layout.Groups().Any(g => g.Numbers[0] == p.Sheet));

    protected override async Task OnInitializedAsync()
    {
        (Do, Place) = (Do ?? new(), Place ?? new());
        await LookAsync();
        if (Place is { Which: "", X: "", Y: "" })
        {
            Offer(Movable.FirstOrDefault());
        }
    }

    // The form to move a print begins with one of them as it lies now.
    private void Offer(ShowLayout.Print? print) =>
        Place = print is null ? new() : new() { Which = $"{print.Sheet}/{print.Number}", To = print.Sheet, X = $"{print.Lies.At.X:0.#}", Y = $"{print.Lies.At.Y:0.#}" };

    // After a change the prints may have other letters and other sheets: the one that was moved is known by where it was put.
    private ShowLayout.Print? Moved(ChangeLayout.Request request) => request.What is not Edit.Move ? null
        : Movable.Where(p => p.Lies.Held && Math.Abs(p.Lies.At.X - request.X) < Seen && Math.Abs(p.Lies.At.Y - request.Y) < Seen).OrderByDescending(p => p.Sheet == request.To).FirstOrDefault();

    private static string Letter(int index) => Runs.SheetDrawing.Letter(index);

    private static string Move(ShowLayout.Print print, ShowLayout.Place place) =>
        FormattableString.Invariant($"Move/{print.Sheet}/{print.Number}/{place.Sheet}/{place.X}/{place.Y}");

    private string? TooMany(ShowLayout.Offer offer) => tooMany is { } t && (t.Order, t.Line) == (offer.Order, offer.Line) ? t.Message : null;

    private async Task EditAsync()
    {
        var parts = Do.What.Split('/');
        if (!Enum.TryParse<Edit>(parts[0], out var what) || !Enum.IsDefined(what))
        {
            return;
        }

        var invariant = System.Globalization.CultureInfo.InvariantCulture;
        var numbers = parts[1..].Select(p => double.TryParse(p, System.Globalization.NumberStyles.Float, invariant, out var n) ? n : 0).ToArray();
        int At(int i) => i < numbers.Length && numbers[i] is >= 0 and < int.MaxValue ? (int)numbers[i] : 0;
        await ChangeAsync(what is Edit.GoBack
            ? new(Visitor.Name, Number, Do.Step, what, To: At(0))
            : new(Visitor.Name, Number, Do.Step, what, At(0), At(1), At(2) is var to and > 0 ? to : 1, numbers.ElementAtOrDefault(3), numbers.ElementAtOrDefault(4)));
    }

    private async Task MoveAsync()
    {
        if (Look.Typed.Figure(Place.X) is not { } x || Look.Typed.Figure(Place.Y) is not { } y
            || Place.Which.Split('/') is not [var s, var p] || !int.TryParse(s, out var sheet) || !int.TryParse(p, out var print))
        {
            refusal = new ChangeLayout.NotAPlace();
            return;
        }

        await ChangeAsync(new(Visitor.Name, Number, Place.Step, Edit.Move, sheet, print, Place.To ?? 1, x, y));
    }

    private async Task ChangeAsync(ChangeLayout.Request request)
    {
        var outcome = await ChangeLayout.RunAsync(request);
        refusal = outcome.Refusal;
        done = outcome.Value is not { } d ? null
            : d.Now == d.Before ? $"{d.Says}."
            : $"{d.Says}. It takes {d.Now} {(laid!.IsRoll ? "mm" : d.Now == 1 ? "sheet" : "sheets")} now, {d.Before} before.";
        await LookAsync();
        if (outcome.Granted)
        {
            Offer(Moved(request) ?? Movable.FirstOrDefault());
        }
    }

    private async Task FillAsync()
    {
        var outcome = await FillRun.RunAsync(new(Visitor.Name, Number, Fill.Step, [.. Fill.Prints.Select(p => new FillRun.Chosen(p.Order, p.Line, p.Copies ?? 0))]));
        tooMany = outcome.Refusal as FillRun.MoreThanWait;
        refusal = tooMany is null ? outcome.Refusal : null; // that one stands beside its field
        done = outcome.Value is not { } d ? null
            : $"{d.Added} more {(d.Added == 1 ? "print is" : "prints are")} laid with it.{(laid!.IsRoll ? $" {d.Rest} of the roll {(d.Rest.Micrometres == 0 ? "are" : "is")} left." : "")}";
        Fill = outcome.Granted ? new() : Fill;
        await LookAsync();
    }

    // What is offered changes with the layout, and the form has a field for each.
    private async Task LookAsync()
    {
        laid = await ShowLayout.RunAsync(Number);
        Fill ??= new();
        while (Fill.Prints.Count < (laid?.Offers.Count ?? 0))
        {
            Fill.Prints.Add(new());
        }
    }

    private sealed class ActForm
    {
        public int Step { get; set; }

        /// <summary>As the button says it: what, and of which sheet and print.</summary>
        public string What { get; set => field = value ?? ""; } = "";
    }

    private sealed class MoveForm
    {
        public int Step { get; set; }

        public string Which { get; set => field = value ?? ""; } = "";

        public int? To { get; set; } = 1;

        public string X { get; set => field = value ?? ""; } = "";

        public string Y { get; set => field = value ?? ""; } = "";
    }

    private sealed class FillForm
    {
        public int Step { get; set; }

        public List<FillRow> Prints { get; set; } = [];
    }

    private sealed class FillRow
    {
        public int Order { get; set; }

        public int Line { get; set; }

        public int? Copies { get; set; }
    }
}
