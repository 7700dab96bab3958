using Microsoft.AspNetCore.Components;
using Goodsheet.App.Care;
using Goodsheet.Room;
using Goodsheet.Room.Care;

namespace Goodsheet.Web.Care;

/// <summary>The air over some days, a reading typed, a logger's file looked at and taken in.</summary>
public sealed partial class AirPage
{
    private const int UsualDays = 60;

    private ShowAir.Page? air;
    private ImportAir.Done? taken;
    private Refusal? refusal;
    private string? done;

    [SupplyParameterFromQuery] public int Days { get; set; }

    [SupplyParameterFromQuery(Name = "file")] public string? FileHash { get; set; }

    [SupplyParameterFromQuery] public string? Name { get; set; }

    [SupplyParameterFromForm(FormName = "note")] private NoteForm? Note { get; set; }

    [SupplyParameterFromForm(FormName = "take")] private TakeForm? Take { get; set; }

    private int Shown => Days is >= 1 and <= ShowAir.MostDays ? Days : UsualDays;

    private string Says => air!.Latest is not { } latest ? "Dry air curls paper and lets ink dry in the head; damp air swells paper and slows drying."
        : $"{latest.Humidity:0.#} % and {latest.Temperature:0.#} °C at {Look.Words.Moment(latest.At, Clock.LocalTimeZone)}: {Verdict(latest)}.";

    protected override async Task OnInitializedAsync()
    {
        var looked = Take is null && FileHash is not null;
        (Note, Take) = (Note ?? new(), Take ?? new());
        air = await ShowAir.RunAsync(Shown);
        if (looked)
        {
            await ImportAsync(dryRun: true);
        }
    }

    private async Task NoteAsync()
    {
        if (Note!.Celsius is not { } celsius || Note.Humidity is not { } humidity)
        {
            refusal = new BothAreNeeded();
            return;
        }

        var outcome = await NoteAir.RunAsync(new(new(Note.Command), Visitor.Name, celsius, humidity));
        (refusal, done) = (outcome.Refusal, outcome.Granted
            ? outcome.Value is { TemperatureHolds: true, HumidityHolds: true } ? "Written down. The air is within what the room wishes." : "Written down. The air is outside what the room wishes."
            : null);
        Note = new();
        air = await ShowAir.RunAsync(Shown);
    }

    private async Task TakeAsync()
    {
        await ImportAsync(dryRun: false);
        air = await ShowAir.RunAsync(Shown);
    }

    private async Task ImportAsync(bool dryRun)
    {
        if (FileHash is null || await Files.TextAsync(FileHash, ImportAir.MostBytes) is not { } csv)
        {
            refusal = new NoSuchFile();
            return;
        }

        var outcome = await ImportAir.RunAsync(new(csv, new(Take!.Unit, Take.Order), dryRun));
        (refusal, taken) = (outcome.Refusal, outcome.Value);
        done = taken is { TakenIn: true } ? $"{taken.Fresh} readings taken in." : null;
    }

    private string Verdict(ClimateReading reading) => (air!.Bands.HoldsHumidity(reading.Humidity), air.Bands.HoldsTemperature(reading.Temperature)) switch
    {
        (true, true) => "as the room wishes",
        (false, _) => reading.Humidity < air.Bands.Driest ? "too dry" : "too damp",
        _ => reading.Temperature < air.Bands.Coolest ? "too cool" : "too warm",
    };

    private static string Three(AirDay day, Spread spread) => day.Readings == 1 ? $"{spread.Median:0.#}" : $"{spread.Least:0.#} · {spread.Median:0.#} · {spread.Most:0.#}";

    private sealed record BothAreNeeded() : Refusal("Type temperature and humidity both. Nothing was written down.");

    private sealed record NoSuchFile() : Refusal("That file is not here, or it is too large to be a logger’s. Bring it in again.");

    private sealed class NoteForm
    {
        public Guid Command { get; set; } = CommandId.New().Value;

        public double? Celsius { get; set; }

        public double? Humidity { get; set; }
    }

    private sealed class TakeForm
    {
        public TemperatureUnit? Unit { get; set; }

        public DateOrder? Order { get; set; }
    }
}
