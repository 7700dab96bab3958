namespace Goodsheet.Room.Runs;

/// <summary>Puts a day's runs in order over the printers.</summary>
public static class DayPlanner
{
    public const int MostRuns = 400;

    /// <param name="work">Printers, runs and rules.</param>
    /// <param name="present">The order at hand by printer, as places in the list of runs; runs it lacks are put where they cost least.
    /// Null to begin anew.</param>
    /// <param name="seed">The same seed, work and number of exchanges give the same plan.</param>
    /// <param name="stop">Asked now and then with how many exchanges were tried.</param>
    public static Outcome<DayPlan> Plan(DayWork work, IReadOnlyList<IReadOnlyList<int>>? present, int seed, Func<long, bool> stop)
    {
        if (Refused(work) is { } no)
        {
            return no;
        }

        var order = new DayOrder(work, DayStart.Ordered(work));
        if (present is null)
        {
            return Searched(work, order, seed, stop);
        }

        var kept = new DayOrder(work, DayStart.Filled(work, new(work), present));
        var atHand = Timed(work, kept.Order);
        var found = Searched(work, kept.Cost <= order.Cost ? kept : order, seed, stop);
        return atHand.Cost - found.Cost < work.Rules.Prices.WorthMoving ? atHand : found;
    }

    /// <summary>The times and the cost of an order that somebody else made.</summary>
    public static DayPlan Timed(DayWork work, IReadOnlyList<IReadOnlyList<int>> order)
    {
        var slots = new List<DaySlot>();
        var cost = new DayTimes(work).Cost([.. order.Select(l => l.ToArray())], [.. order.Select(l => l.Count)], double.PositiveInfinity, slots);
        return new(work, [.. order.Select((_, lane) => slots.Where(s => s.Printer == lane).ToArray())], cost);
    }

    private static DayPlan Searched(DayWork work, DayOrder order, int seed, Func<long, bool> stop)
    {
        if (!stop(0))
        {
            new OrderSearch<DayOrder>(order, seed).Run(0, stop);
        }

        return Timed(work, order.Order);
    }

    private static Refusal? Refused(DayWork work) => work switch
    {
        { Printers.Count: 0 } => new NoPrinter(),
        { Runs.Count: > MostRuns } => new TooMany(work.Runs.Count),
        _ => work.Runs.FirstOrDefault(r => r.MinutesOn.All(m => m is null)) is { } none ? new NobodyPrintsIt(none.Key) : null,
    };

    public sealed record NoPrinter() : Refusal("The room has no printer to plan for.");

    public sealed record TooMany(int Runs) : Refusal($"{Runs} runs cannot be planned at once: at most {MostRuns}.");

    public sealed record NobodyPrintsIt(string Run) : Refusal($"No printer can print {Run}.");
}
