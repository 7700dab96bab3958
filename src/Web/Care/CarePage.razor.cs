using Microsoft.AspNetCore.Components;
using Goodsheet.App.Care;
using Goodsheet.Room;
using Goodsheet.Room.Care;
using Goodsheet.Room.Printers;

namespace Goodsheet.Web.Care;

/// <summary>The rounds with big ticks, made for a phone at the printer.</summary>
public sealed partial class CarePage
{
    private const int OpenShown = 6;

    private ShowCare.Page? care;
    private IReadOnlyDictionary<PrinterCode, string> printers = new Dictionary<PrinterCode, string>();
    private Refusal? refusal;
    private string? done;

    [SupplyParameterFromForm] private TickForm? Tick { get; set; }

    private string Says => care switch
    {
        { Due.Count: 0, Later.Count: 0 } => "Paper and printers stay fit by small things done every day.",
        { Due.Count: 0 } c => $"Nothing is due. Next: {Name(c.Later[0])}, {Next(c.Later[0]):dddd}.",
        { } c => $"{c.Due.Count} {(c.Due.Count == 1 ? "round is" : "rounds are")} due{Air(c)}.",
        _ => "",
    };

    protected override async Task OnInitializedAsync() => (printers, care) = (await ShowPrinters.NamesAsync(), await ShowCare.RunAsync());

    private async Task TickAsync()
    {
        var ticked = Tick!.Steps.Where(s => s is >= 0 and < 63).Aggregate(0L, (bits, step) => bits | (1L << step));
        var outcome = await TickTask.RunAsync(new(new(Tick.Command), Visitor.Name, Tick.Task, ticked, Tick.Note));
        (refusal, done) = (outcome.Refusal, outcome.Granted ? $"{outcome.Value.Task}: done." : null);
        care = await ShowCare.RunAsync();
    }

    private async Task UsualAsync()
    {
        var outcome = await TakeUsualCare.RunAsync();
        (refusal, done) = (outcome.Refusal, outcome.Granted ? outcome.Value.Added == 0 ? "They are here already." : $"{outcome.Value.Added} rounds taken up." : null);
        care = await ShowCare.RunAsync();
    }

    // A refused tick comes back as it was ticked.
    private bool Kept(CareTask task, int step) => refusal is not null && Tick?.Task == task.Number && Tick.Steps.Contains(step);

    private static string Air(ShowCare.Page care) => care.Latest is { } air && !(care.Bands.HoldsHumidity(air.Humidity) && care.Bands.HoldsTemperature(air.Temperature))
        ? $", and the air was outside the room’s band when it was last read ({air.Temperature:0.#} °C, {air.Humidity:0} %)" : "";

    private string Name(CareTask task) => task.Printer is { } printer ? $"{task.Name}, {printers.GetValueOrDefault(printer, printer.Value)}" : task.Name;

    private string Since(CareTask task) => task.LastAt is { } last ? $"last {Look.Words.Moment(last, Clock.LocalTimeZone)}" : "not done yet";

    private DateOnly Next(CareTask task) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(task.LastAt!.Value, Clock.LocalTimeZone).DateTime).AddDays(task.EveryDays);

    private sealed class TickForm
    {
        public Guid Command { get; set; }

        public int Task { get; set; }

        public List<int> Steps { get; set => field = value ?? []; } = [];

        public string Note { get; set => field = value ?? ""; } = "";
    }
}
