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

    private List<DayShown.Slot> Waiting => [.. day!.Lanes.SelectMany(l => l.Slots).Where(s => !s.Began)];

    private IEnumerable<DayShown.Slot> Today => day!.Lanes.SelectMany(l => l.Slots).Where(s => IsToday(s.Begins));

    private double Now => Hour(day!.Now);

    private int From => (int)Math.Floor(Today.Select(s => Math.Max(0, Hour(s.ChangeAt ?? s.Begins))).Append(day!.Opens.ToTimeSpan().TotalHours).Append(Now).Min());

    private int To => (int)Math.Ceiling(Math.Min(24, Today.Select(s => Hour(s.Ends)).Append(day!.Closes.ToTimeSpan().TotalHours).Append(Now).Max()));

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

    /// <summary>Hours after today's midnight, as the timeline takes them.</summary>
    private double Hour(DateTimeOffset at) => (Local(at).DateTime - Local(day!.Now).Date).TotalHours;

    private static string Css(double hour) => hour.ToString("0.###", CultureInfo.InvariantCulture);

    private string Time(DateTimeOffset at) => Local(at).ToString(IsToday(at) ? "HH:mm" : "ddd HH:mm", CultureInfo.CurrentCulture);

    private static (MarkState, string) Of(DayShown.Slot slot) => slot switch
    {
        { Began: true } => (MarkState.Due, "printing"),
        { LateMinutes: > 0 } => (MarkState.Act, $"{slot.LateMinutes:0} minutes late"),
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
