using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Runs;

/// <summary>Work to be put in order. All times are minutes after the instant the plan is made for.</summary>
/// <param name="Key">A run's number, or an order's, as it is called.</param>
/// <param name="Paper">What has to be in the printer.</param>
/// <param name="Black">The black it prints with.</param>
/// <param name="Feed">Two or three at a time and one by one keep a person at the printer.</param>
/// <param name="MinutesOn">How long it prints on each printer; none where it cannot be printed.</param>
/// <param name="Ready">Not before.</param>
/// <param name="Due">When it must be dry; infinity if nothing was promised.</param>
/// <param name="PerMinuteLate">What a minute late costs, in the room's money.</param>
/// <param name="DryMinutes">Before it may be stacked.</param>
/// <param name="DryPlaces">Places it takes on the drying table meanwhile.</param>
public sealed record RunToPlan(
    string Key, string Paper, BlackInk Black, Feed Feed, IReadOnlyList<double?> MinutesOn, double Ready, double Due, double PerMinuteLate,
    double DryMinutes, int DryPlaces)
{
    /// <summary>What has to be printed and looked at before, as places in the list of runs: test strips.</summary>
    public IReadOnlyList<int> After { get; init; } = [];

    /// <summary>From the end of what it waits for until that has been looked at.</summary>
    public double AfterMinutes { get; init; }

    public bool KeepsAPerson => PrintTime.KeepsAPerson(Feed);
}

/// <summary>A printer as it stands: what has begun on it is not touched, so it is free when that ends.</summary>
public sealed record PrinterDay(
    string Name, double FreeAt, BlackInk Black, string? Paper, double MinutesToPhoto, double MlToPhoto, double MinutesToMatte, double MlToMatte,
    double MinutesPerPaperChange)
{
    /// <summary>Minutes and ml of bringing in another black.</summary>
    public (double Minutes, double Ml) Change(BlackInk from, BlackInk to) => from == to ? (0, 0) : to switch
    {
        BlackInk.Photo => (MinutesToPhoto, MlToPhoto),
        BlackInk.Matte => (MinutesToMatte, MlToMatte),
        _ => (0, 0),
    };
}

/// <summary>What the order is weighed with, in the room's money.</summary>
/// <param name="PerMl">Of ink purged.</param>
/// <param name="PerMinute">Of a printer, printing or changing.</param>
/// <param name="PerMinuteWaiting">Of work that is not done yet: small, so that even work with time in hand gets out of the way.</param>
/// <param name="WorthMoving">A plan that saves less than this is not worth shuffling the one at hand.</param>
public sealed record PlanPrices(double PerMl, double PerMinute, double PerMinuteWaiting, double WorthMoving);

/// <summary>When people are there, how many, and how much room there is to dry.</summary>
/// <param name="Hours">From and to, in order; behind the last all hours are open.</param>
/// <param name="People">Who can feed at the same time, one printer each.</param>
/// <param name="DryPlaces">Places on the drying table; 0 if room is no matter.</param>
/// <param name="Drying">What lies there already, and until when.</param>
public sealed record DayRules(IReadOnlyList<(double From, double To)> Hours, int People, int DryPlaces, IReadOnlyList<(double Until, int Places)> Drying, PlanPrices Prices);

public sealed record DayWork(IReadOnlyList<PrinterDay> Printers, IReadOnlyList<RunToPlan> Runs, DayRules Rules);

/// <summary>One run where the plan puts it.</summary>
/// <param name="Run">Which, as a place in the list of runs.</param>
/// <param name="Printer">Which, as a place in the list of printers.</param>
/// <param name="ChangeAt">When a person starts changing black or paper; the same as Begins when nothing is changed.</param>
public sealed record DaySlot(int Run, int Printer, double ChangeAt, double Begins, double Ends, double Dry, double BlackMinutes, double BlackMl, double PaperMinutes, double Late);

/// <summary>An order of runs with its times.</summary>
public sealed record DayPlan(DayWork Work, IReadOnlyList<IReadOnlyList<DaySlot>> Lanes, double Cost)
{
    public IEnumerable<DaySlot> Slots => Lanes.SelectMany(l => l);

    public int LateRuns => Slots.Count(s => s.Late > 0);

    public double LateMinutes => Slots.Sum(s => s.Late);

    public double Ml => Slots.Sum(s => s.BlackMl);

    public int BlackChanges => Slots.Count(s => s.BlackMinutes > 0 || s.BlackMl > 0);

    public double ChangeMinutes => Slots.Sum(s => s.BlackMinutes + s.PaperMinutes);

    public IReadOnlyList<IReadOnlyList<int>> Order => [.. Lanes.Select(l => l.Select(s => s.Run).ToArray())];
}
