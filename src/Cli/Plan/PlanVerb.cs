using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Settings;
using Goodsheet.App;
using Goodsheet.App.Plan;

namespace Goodsheet.Cli.Plan;

/// <summary><c>plan</c>: the runs of the day in order, with what it costs to change blacks and who will be late.</summary>
public static class PlanVerb
{
    private static readonly Option<bool> Again = new("--again") { Description = "Plan afresh and keep the new order; what has begun stays." };

    public static Command Create()
    {
        var command = new Command("plan", "Shows the day's runs in order, printer by printer.") { RoomOption.Room, RoomOption.Postgres, Again, Answer.Json };
        command.SetAction(async (line, cancel) =>
        {
            var (store, _) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var outcome = line.GetValue(Again)
                ? await new PlanDay(store, await store.ClockAsync(cancel)).RunAsync(cancel)
                : await new ShowPlan(store, await store.ClockAsync(cancel)).RunAsync(cancel);
            return await line.GiveAsync(outcome, day => new { day.Now, day.Verdict, day.LateRuns, day.LateMinutes, day.BlackChanges, day.Ml, day.ChangeMinutes, day.Lanes, day.Why }, Says);
        });
        return command;
    }

    private static string Says(DayShown day)
    {
        var lines = new List<string> { day.Verdict };
        foreach (var lane in day.Lanes)
        {
            lines.Add($"{lane.Printer} ({lane.With})");
            lines.AddRange(lane.Slots.Select(s => string.Create(CultureInfo.CurrentCulture,
                $"  {At(s.Begins)} to {At(s.Ends)}  {s.Key}, {s.Paper}{(s.Change.Length > 0 ? $"; first {s.Change}" : "")}{(s.LateMinutes > 0 ? $"; {s.LateMinutes:0} minutes late" : "")}{(s.WaitsForStrip ? "; waits for its test strip" : "")}{(s.Began ? "; printing" : "")}")));
        }

        return string.Join('\n', [.. lines, .. day.Why]);

        string At(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, day.Zone).ToString("ddd HH:mm", CultureInfo.CurrentCulture);
    }
}
