using System.Globalization;
using Microsoft.AspNetCore.Components;
using Goodsheet.App.Orders;
using Goodsheet.App.Work;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Orders;

public partial class TestStripPage
{
    private const int Wide = 620;
    private const int Narrow = 320;

    private ShowTestStrips.Page? all;
    private Refusal? refusal;

    [Parameter, EditorRequired] public required int Order { get; set; }

    [Parameter, EditorRequired] public required int Line { get; set; }

    [SupplyParameterFromQuery(Name = "x")] private string? XSaid { get; set; }

    [SupplyParameterFromQuery(Name = "y")] private string? YSaid { get; set; }

    [SupplyParameterFromQuery(Name = "w")] private string? WSaid { get; set; }

    [SupplyParameterFromQuery(Name = "h")] private string? HSaid { get; set; }

    [SupplyParameterFromQuery(Name = "kind")] private int? KindSaid { get; set; }

    // Where the picture was pointed at, in pixels of the picture as it was shown; without script, too.
    [SupplyParameterFromQuery(Name = "at.x")] private int? PointX { get; set; }

    [SupplyParameterFromQuery(Name = "at.y")] private int? PointY { get; set; }

    [SupplyParameterFromQuery(Name = "from")] private string? MmAPixel { get; set; }

    [SupplyParameterFromForm(FormName = "make")] private MakeForm Make { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "printed")] private PrintedForm Printed { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "judged")] private JudgedForm Judged { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "first")] private WaitForm Waits { get; set; } = null!;

    private double W => Read(WSaid) ?? TestStrip.UsualWidth.Millimetres;

    private double H => Read(HSaid) ?? TestStrip.UsualHeight.Millimetres;

    private bool IsPointed => PointX is not null && PointY is not null && Read(MmAPixel) is > 0;

    private bool IsSaid => IsPointed || Read(XSaid) is not null || Read(YSaid) is not null;

    private double XMm => Within(IsPointed ? (PointX!.Value * Read(MmAPixel)!.Value) - (W / 2) : Read(XSaid) ?? First?.X.Millimetres ?? 0, all!.Print.Width.Millimetres - W);

    private double YMm => Within(IsPointed ? (PointY!.Value * Read(MmAPixel)!.Value) - (H / 2) : Read(YSaid) ?? First?.Y.Millimetres ?? 0, all!.Print.Height.Millimetres - H);

    private PlaceKind Kind => IsPointed ? PlaceKind.Chosen
        : KindSaid is { } k && Enum.IsDefined((PlaceKind)k) ? (PlaceKind)k : IsSaid ? PlaceKind.Chosen : First?.Kind ?? PlaceKind.Chosen;

    private ShowTestStrips.Place? First => all!.Places.Count > 0 ? all.Places[0] : null;

    private string Size0 => $"{N(all!.Print.Width.Millimetres)} × {N(all.Print.Height.Millimetres)} mm";

    private string Says => all switch
    {
        { Profile: null } => $"{all.Paper.Name} has no trusted profile: a strip can be made when it has.",
        { Strips: [{ Says: StripSays.GoOn } last, ..] } => $"Strip {last.Number} says: go on.",
        { Strips: [{ Says: StripSays.Change } last, ..] } => $"Strip {last.Number} says: change. {last.Why}",
        { Strips: [{ PrintedAt: null } last, ..] } => $"Strip {last.Number} is made and not printed yet.",
        { Strips: [{ } last, ..] } => $"Strip {last.Number} is printed: judge it in the light the print will hang in.",
        _ => "A piece of it in full size on its own paper, before the whole is printed.",
    };

    private double Shape => all!.Print.Width.Millimetres / all.Print.Height.Millimetres;

    private string Frame => string.Create(
        CultureInfo.InvariantCulture,
        $"position:absolute;pointer-events:none;left:{Part(XMm, all!.Print.Width)}%;top:{Part(YMm, all.Print.Height)}%;width:{Part(Math.Min(W, all.Print.Width.Millimetres - XMm), all.Print.Width)}%;height:{Part(Math.Min(H, all.Print.Height.Millimetres - YMm), all.Print.Height)}%;outline:2px solid #fdfdfd;box-shadow:0 0 0 4px #161616");

    protected override async Task OnInitializedAsync()
    {
        (Make, Printed, Judged) = (Make ?? new(), Printed ?? new(), Judged ?? new());
        await LoadAsync();
        Waits ??= new() { Wanted = all?.Print.StripFirst ?? false };
    }

    private async Task LoadAsync() => all = await ShowTestStrips.RunAsync(Order, Line, Mm(W), Mm(H));

    private async Task MakeAsync()
    {
        var about = MakeTestStrip.About(all!.Print, Mm(XMm), Mm(YMm), Mm(W), Mm(H), Kind);
        refusal = about.Refusal;
        if (about.Granted)
        {
            Navigation.NavigateTo($"/work/{await WorkDesk.AskAsync<MakeTestStrip>(about.Value, Visitor.Name, default)}?then=/orders/{Order}/{Line}/strip");
        }
    }

    private async Task FirstAsync()
    {
        refusal = (await SayHowLaid.RunAsync(new(Visitor.Name, Order, Line, all!.Print.MayTurn, all.Print.GoesAlong, Waits.Wanted))).Refusal;
        await LoadAsync();
    }

    private async Task PrintedAsync()
    {
        var isRoll = all!.Lots.FirstOrDefault(l => l.Lot.Value == Printed.Lot)?.Format.Value.StartsWith("roll", StringComparison.Ordinal) ?? false;
        refusal = (await NoteTestStrip.RunAsync(new(new(Printed.Command), Visitor.Name, Order, Line, Printed.Number, new(Printed.Lot), Typed.Quantity(Printed.Quantity, isRoll) ?? -1))).Refusal;
        await LoadAsync();
    }

    private async Task JudgeAsync()
    {
        refusal = (await JudgeTestStrip.RunAsync(new(Visitor.Name, Order, Line, Judged.Number, Judged.Says, Judged.Why))).Refusal;
        await LoadAsync();
    }

    private (int Wide, int High) Size(int side) => ((int)Math.Round(side * Math.Min(1, Shape)), (int)Math.Round(side * Math.Min(1, 1 / Shape)));

    private string Share(int side) => (all!.Print.Width.Millimetres / Size(side).Wide).ToString("0.######", CultureInfo.InvariantCulture);

    private string At(ShowTestStrips.Place place) =>
        $"/orders/{Order}/{Line}/strip?x={N(place.X.Millimetres)}&y={N(place.Y.Millimetres)}&w={N(W)}&h={N(H)}&kind={(int)place.Kind}";

    private static string PlaceWords(ShowTestStrips.Place place) =>
        place.Kind is PlaceKind.Most ? "Most of all" : string.Create(CultureInfo.CurrentCulture, $"{Words.Sentence(KindWords(place.Kind))}, {place.Share:0 %}");

    private static string KindWords(PlaceKind kind) => kind switch
    {
        PlaceKind.Most => "most of all that tells",
        PlaceKind.NotHeld => "colours not held",
        PlaceKind.Shadows => "drawing in shadows",
        PlaceKind.Skin => "skin",
        PlaceKind.Detail => "fine detail",
        _ => "chosen by hand",
    };

    private static double Within(double mm, double most) => Math.Clamp(Math.Round(mm, 1), 0, Math.Max(0, Math.Floor(most * 10) / 10));

    private static string Part(double mm, Length whole) => (100 * mm / whole.Millimetres).ToString("0.###", CultureInfo.InvariantCulture);

    private static string ToBegin => "Print and read a chart of its paper first, and trust the profile that is made of it.";

    private static string N(double mm) => mm.ToString("0.#", CultureInfo.InvariantCulture);

    private static double? Read(string? text) =>
        double.TryParse(text?.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var mm) && mm is >= 0 and < 100_000 ? mm : null;

    private static Length Mm(double mm) => Length.NearestToMillimetres(mm);

    private sealed class MakeForm;

    private sealed class WaitForm
    {
        public bool Wanted { get; set; }
    }

    private sealed class PrintedForm
    {
        public Guid Command { get; set; } = CommandId.New().Value;

        public int Number { get; set; }

        public string Lot { get; set => field = value ?? ""; } = "";

        public string Quantity { get; set => field = value ?? ""; } = "1";
    }

    private sealed class JudgedForm
    {
        public int Number { get; set; }

        public StripSays Says { get; set; }

        public string Why { get; set => field = value ?? ""; } = "";
    }
}
