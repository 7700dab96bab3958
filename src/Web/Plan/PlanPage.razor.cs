using System.Globalization;
using Microsoft.AspNetCore.Components;
using Goodsheet.App.Plan;
using Goodsheet.Room;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Plan;

public sealed partial class PlanPage
{
    private DayShown? day;
    private TryPromise.Done? answer;
    private Refusal? refusal;
    private string? done;

    [SupplyParameterFromForm(FormName = "again")]
    private AgainForm Again { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "ask")]
    private AskForm Ask { get; set; } = null!;

    private List<DayShown.Slot> Waiting => [.. day!.Lanes.SelectMany(l => l.Slots).Where(s => !s.Began && s.Strip is null)];

    // After closing time the day that is drawn is the next one with work.
    private DateTime Drawn => Local(day!.Now).TimeOfDay < day.Closes.ToTimeSpan()
        ? Local(day.Now).Date
        : day.Lanes.SelectMany(l => l.Slots).Where(s => !s.Began).Select(s => Local(s.Begins).Date).DefaultIfEmpty(Local(day.Now).Date).Min();

    private bool IsNowDrawn => Drawn == Local(day!.Now).Date;

    private IEnumerable<DayShown.Slot> OnDay => day!.Lanes.SelectMany(l => l.Slots).Where(s => IsDrawn(s.Begins));

    private double Now => Hour(day!.Now);

    private int From => (int)Math.Floor(OnDay.Select(s => Math.Max(0, Hour(s.ChangeAt ?? s.Begins))).Append(day!.Opens.ToTimeSpan().TotalHours).Append(IsNowDrawn ? Now : 24).Min());

    private int To => (int)Math.Ceiling(Math.Min(24, OnDay.Select(s => Hour(s.Ends)).Append(day!.Closes.ToTimeSpan().TotalHours).Append(IsNowDrawn ? Now : 0).Max()));

    protected override async Task OnInitializedAsync()
    {
        Again ??= new();
        Ask ??= new();
        var outcome = await ShowPlan.RunAsync();
        (day, refusal) = (outcome.Value, outcome.Refusal);
    }

    private async Task AgainAsync()
    {
        var outcome = await PlanDay.RunAsync();
        (day, refusal) = (outcome.Value ?? day, outcome.Refusal);
        done = outcome.Granted ? "Planned afresh. What has begun stayed where it was." : null;
    }

    private async Task AskAsync()
    {
        if (!TimeOnly.TryParse(Ask.At, CultureInfo.CurrentCulture, out var at))
        {
            refusal = new NotATime(Ask.At);
            return;
        }

        var outcome = await TryPromise.RunAsync(new(Ask.Key, at));
        (answer, refusal) = (outcome.Value, outcome.Refusal);
    }

    private DateTimeOffset Local(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, day!.Zone);

    private bool IsToday(DateTimeOffset at) => Local(at).Date == Local(day!.Now).Date;

    private bool IsThisWeek(DateTimeOffset at) => (Local(at).Date - Local(day!.Now).Date).TotalDays is > 0 and < 7;

    private bool IsDrawn(DateTimeOffset at) => Local(at).Date == Drawn;

    /// <summary>Hours after the drawn day's midnight, as the timeline takes them.</summary>
    private double Hour(DateTimeOffset at) => (Local(at).DateTime - Drawn).TotalHours;

    private static string Css(double hour) => hour.ToString("0.###", CultureInfo.InvariantCulture);

    private string Time(DateTimeOffset at) => Local(at).ToString(IsToday(at) ? "HH:mm" : IsThisWeek(at) ? "ddd HH:mm" : "d MMM HH:mm", CultureInfo.CurrentCulture);

    // On a narrow bar: the number, or that it is a strip.
    private static string Short(DayShown.Slot slot) => slot.Strip is not null ? "strip" : slot.Run is null ? slot.Key.Split(',')[0].Split(' ')[^1] : slot.Key;

    private static string What(DayShown.Slot slot) => slot switch
    {
        { Strip: not null } => ", a test strip",
        { Prints: 0 } => "",
        _ => $", {slot.Prints} {(slot.Prints == 1 ? "print" : "prints")}",
    };

    private static string Name(DayShown.Slot slot) => slot.Run is { } run ? $"Run {run}" : Words.Sentence(slot.Key);

    private static string? Link(DayShown.Slot slot) => slot switch
    {
        { Run: { } run } => $"/runs/{run}",
        { Strip: { } strip } => $"/orders/{strip.Order}/{strip.Line}/strip",
        { Order: { } order } => $"/orders/{order}",
        _ => null,
    };

    // For a keeper who stands at the printer: what is on it, and what comes next.
    private static IReadOnlyList<DayShown.Slot> Soon(DayShown.Lane lane) => [.. lane.Slots.TakeWhile(s => s.Began), .. lane.Slots.SkipWhile(s => s.Began).Take(1)];

    private static string Late(double minutes) => Math.Round(minutes) <= 1 ? "1 minute" : minutes < 120 ? $"{minutes:0} minutes" : $"{minutes / 60:0.#} hours";

    private static (MarkState, string) Of(DayShown.Slot slot) => slot switch
    {
        { Began: true, LateMinutes: > 0 } => (MarkState.Act, $"printing, {Late(slot.LateMinutes)} late"),
        { Began: true } => (MarkState.Due, "printing"),
        { Strip: { } strip } => (MarkState.Act, strip.Says),
        { LateMinutes: > 0 } => (MarkState.Act, $"{Late(slot.LateMinutes)} late"),
        { WaitsForStrip: true } => (MarkState.Wait, "waits for its test strip"),
        { Run: null } => (MarkState.Wait, "not on paper yet"),
        { ChangeAt: not null } => (MarkState.Wait, slot.Change),
        _ => (MarkState.Wait, "ready"),
    };

    private sealed record NotATime(string Text) : Refusal($"\"{Text}\" is not a time. Write it as 15:00.");

    private sealed class AgainForm;

    private sealed class AskForm
    {
        public string Key { get; set; } = "";

        public string At { get; set; } = "15:00";
    }
}
