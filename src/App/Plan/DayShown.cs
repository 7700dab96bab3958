using System.Globalization;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Plan;

/// <summary>A day's plan in times and words.</summary>
public sealed record DayShown(
    DateTimeOffset Now, TimeZoneInfo Zone, TimeOnly Opens, TimeOnly Closes, IReadOnlyList<DayShown.Lane> Lanes, string Verdict, IReadOnlyList<string> Why,
    int LateRuns, double LateMinutes, int BlackChanges, double Ml, double ChangeMinutes)
{
    /// <param name="Began">It is printing: nothing moves it.</param>
    /// <param name="Run">The run's number; none for an order that is on no run yet.</param>
    /// <param name="ChangeAt">When black or paper is changed for it; none if nothing is.</param>
    /// <param name="Strip">The print of which it is a test strip; none for a run or an order.</param>
    /// <param name="WaitsForStrip">It begins when its test strip was looked at.</param>
    /// <param name="Order">The order, where it is on no run yet.</param>
    public sealed record Slot(
        string Key, int? Run, string Paper, int Prints, bool Began, DateTimeOffset? ChangeAt, string Change, DateTimeOffset Begins, DateTimeOffset Ends, DateTimeOffset Dry,
        DateTimeOffset? Promised, double LateMinutes, AwaitedStrip? Strip = null, bool WaitsForStrip = false, int? Order = null);

    public sealed record Lane(string Printer, string With, IReadOnlyList<Slot> Slots);

    internal static DayShown Of(RoomDay day, DayPlan plan)
    {
        var lanes = day.Printers.Select((printer, lane) =>
        {
            var begun = day.Begun.Where(b => b.Run.Printer == printer.Code).Select(b => new Slot(
                $"{b.Run.Number}", b.Run.Number, day.PaperName(b.Run.Paper.Value), b.Prints, true, null, "", day.At(b.From), day.At(b.To), day.At(b.Dry),
                double.IsFinite(b.Due) ? day.At(b.Due) : null, Math.Max(0, b.Dry - b.Due)));
            var planned = plan.Lanes[lane].Select(s =>
            {
                var run = day.Work.Runs[s.Run];
                return new Slot(
                    run.Key, day.Runs[s.Run]?.Number, day.PaperName(run.Paper), run.DryPlaces, false, s.Begins > s.ChangeAt ? day.At(s.ChangeAt) : null, Change(s, run),
                    day.At(s.Begins), day.At(s.Ends), day.At(s.Dry), double.IsFinite(run.Due) ? day.At(run.Due) : null, s.Late,
                    day.Strips.GetValueOrDefault(s.Run), run.After.Count > 0, day.Orders.TryGetValue(s.Run, out var order) ? order : null);
            });
            var black = HandlingAdvice.BlackWords(day.Work.Printers[lane].Black);
            return new Lane(printer.Name, black == HandlingAdvice.BlackWords(BlackInk.Dye) ? "dye, one black" : $"{black} in", [.. begun, .. planned]);
        }).ToArray();
        return new(
            day.Now, day.Zone, day.Room.Opens, day.Room.Closes, lanes, VerdictOf(plan, day), [.. Together(PlanReasons.Of(plan)).Select(r => Words(day, plan, r)).Distinct()],
            plan.LateRuns, plan.LateMinutes, plan.BlackChanges, plan.Ml, plan.ChangeMinutes);
    }

    private static string Change(DaySlot slot, RunToPlan run) => (slot.BlackMinutes > 0, slot.PaperMinutes > 0) switch
    {
        (true, true) => $"{HandlingAdvice.BlackWords(run.Black)} and paper in, {Minutes(slot.BlackMinutes + slot.PaperMinutes)}",
        (true, false) => $"{HandlingAdvice.BlackWords(run.Black)} in, {Minutes(slot.BlackMinutes)}",
        (false, true) => $"paper in, {Minutes(slot.PaperMinutes)}",
        _ => "",
    };

    // What follows one another on the same paper is said in one sentence, where its first is told.
    private static List<List<PlanReason>> Together(IReadOnlyList<PlanReason> reasons)
    {
        var chains = new List<List<PlanReason>>();
        foreach (var reason in reasons)
        {
            if (reason is SamePaperReason same && chains.Find(c => c[^1] is SamePaperReason last && last.Slot == same.Before) is { } chain)
            {
                chain.Add(reason);
            }
            else
            {
                chains.Add([reason]);
            }
        }

        return chains;
    }

    private static string VerdictOf(DayPlan plan, RoomDay day)
    {
        var late = day.Begun.Where(b => b.Dry > b.Due).ToList();
        var promised = plan.Slots.Where(s => double.IsFinite(plan.Work.Runs[s.Run].Due)).ToList();
        var changes = plan.BlackChanges switch { 0 => "No black change.", 1 => "One black change.", var n => $"{n} black changes." };
        return late.Count > 0 ? $"{Sentence(Count(plan.LateRuns + late.Count, "run"))} will be late, {(plan.LateRuns == 0 ? "" : late.Count == 1 ? "one of them " : $"{late.Count} of them ")}printing now. {changes}"
            : promised.Count == 0 ? $"{(plan.Slots.Any() ? "Nothing planned is promised by a time." : "Nothing waits to be printed.")} {changes}"
            : plan.LateRuns > 0 ? $"{Sentence(Count(plan.LateRuns, "run"))} will be late, by {Minutes(plan.LateMinutes)} together. {changes}"
            : $"Every promise holds, the closest by {Minutes(promised.Min(s => plan.Work.Runs[s.Run].Due - s.Dry))}. {changes}";
    }

    private static string Words(RoomDay day, DayPlan plan, List<PlanReason> reasons)
    {
        var reason = reasons[0];
        var key = Called(reason.Slot.Run);
        switch (reason)
        {
            case BlackChangeReason black:
                var costs = $"{Sentence(HandlingAdvice.BlackWords(day.Work.Runs[black.Slot.Run].Black))} goes in at {Time(black.Slot.ChangeAt)}: this black change costs {Millilitres(black.Slot.BlackMl)} and {Minutes(black.Slot.BlackMinutes)} and serves {Count(black.Serves, "run")}.";
                return black.Else switch
                {
                    null when black.CannotWait => $"{costs} It cannot wait: what comes after it waits for a test strip on this paper.",
                    null => $"{costs} Nothing with the other black is left to print after it.",
                    { LateRuns: > 0 } other => $"{costs} It saves {Count(other.LateRuns, "late job")}: waiting with it would make {(other.LateRuns == 1 ? "one" : $"{other.LateRuns}")} more late.",
                    { LateMinutes: > 1 } other => $"{costs} Waiting with it would cost {Minutes(other.LateMinutes)} of lateness.",
                    { BlackChanges: > 0 } other => $"{costs} Waiting with it would need {Count(other.BlackChanges, "change")} more.",
                    _ => $"{costs} Waiting with it would bring nothing.",
                };
            case SamePaperReason same when reasons.Count > 1:
                var minutes = reasons.OfType<SamePaperReason>().Sum(r => r.MinutesSaved);
                return $"{Sentence(Called(same.Before.Run))}, {string.Join(", ", reasons.SkipLast(1).Select(r => Called(r.Slot.Run)))} and {Called(reasons[^1].Slot.Run)} follow one another on {plan.Work.Printers[same.Slot.Printer].Name}: all are {day.PaperName(day.Work.Runs[same.Slot.Run].Paper)}, which saves {Minutes(minutes)} of changing paper.";
            case SamePaperReason same:
                return $"{Sentence(key)} follows {Called(same.Before.Run)} on {plan.Work.Printers[same.Slot.Printer].Name}: both are {day.PaperName(day.Work.Runs[same.Slot.Run].Paper)}, which saves {Minutes(same.MinutesSaved)} of changing paper.";
            case StripReason strip:
                return $"{Sentence(key)} begins when its test strip, printed until {Time(strip.Strip.Ends)}, has been looked at.";
            case LateReason late:
                return late.LateIfFirst > 0
                    ? $"{Sentence(key)} will be {Minutes(late.Slot.Late)} late, and {Minutes(late.LateIfFirst)} late even as the next on {plan.Work.Printers[late.Slot.Printer].Name}: tell the client, or take another printer or paper."
                    : $"{Sentence(key)} will be {Minutes(late.Slot.Late)} late. Printed first it would be on time, but others would pay more for it.";
            default:
                throw new ArgumentOutOfRangeException(nameof(reasons));
        }

        string Called(int at) => day.Runs[at] is { } run ? $"run {run.Number}" : day.Strips.ContainsKey(at) ? $"the {day.Work.Runs[at].Key}" : day.Work.Runs[at].Key;

        string Time(double minute) => TimeZoneInfo.ConvertTime(day.At(minute), day.Zone).ToString("HH:mm", CultureInfo.CurrentCulture);
    }

    private static string Minutes(double minutes) => minutes >= 120
        ? string.Create(CultureInfo.CurrentCulture, $"{minutes / 60:0.#} hours")
        : Math.Round(minutes) is 1 ? "1 minute" : string.Create(CultureInfo.CurrentCulture, $"{Math.Round(minutes)} minutes");

    private static string Millilitres(double ml) => string.Create(CultureInfo.CurrentCulture, $"{ml:0.#} ml");

    private static string Count(int n, string word) => n == 1 ? $"one {word}" : $"{n} {word}s";

    private static string Sentence(string words) => char.ToUpper(words[0], CultureInfo.CurrentCulture) + words[1..];
}
