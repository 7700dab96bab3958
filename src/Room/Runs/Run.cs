using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Runs;

public enum RunState
{
    Planned = 1,
    Printing = 2,
    Done = 3,
    Stopped = 4,
    Cancelled = 5,
}

/// <summary>Prints of one paper that go through one printer together.</summary>
public sealed class Run
{
    public required int Number { get; init; }

    public required PrinterCode Printer { get; init; }

    public required PaperCode Paper { get; init; }

    public required FormatCode Format { get; init; }

    public required ConditionCode Condition { get; init; }

    /// <summary>The profile its files were made with.</summary>
    public required int Profile { get; set; }

    public required BlackInk Black { get; init; }

    public RunState State { get; set; } = RunState.Planned;

    public DateTimeOffset PlannedAt { get; set; }

    public double PlannedMinutes { get; set; }

    public DateTimeOffset? BeganAt { get; set; }

    public DateTimeOffset? EndedAt { get; set; }

    /// <summary>The lot drawn for it; none until it is.</summary>
    public LotCode? Lot { get; set; }

    /// <summary>Sheets, or mm of roll, that the layout needs.</summary>
    public required long Needs { get; set; }

    /// <summary>Placements, cut tree and cut list, as JSON of the App's own form.</summary>
    public required string Layout { get; set; }

    /// <summary>The last decision to go on against a rule, if one was needed.</summary>
    public Guid? Decision { get; set; }

    public double? MlOfInk { get; set; }
}

/// <summary>How many copies of a print line a run makes, and what came of them.</summary>
public sealed class RunPrint
{
    public required int Run { get; init; }

    public required int Order { get; init; }

    public required int Line { get; init; }

    public required int Copies { get; set; }

    public int Good { get; set; }

    public int Wasted { get; set; }
}

/// <summary>Paper or prints a run lost, and why.</summary>
public sealed class RunWaste
{
    public required int Run { get; init; }

    public required int Number { get; init; }

    public required WasteCause Cause { get; init; }

    public required int Prints { get; init; }

    public required long Paper { get; init; }

    public required DateTimeOffset At { get; init; }

    public string Note { get; init; } = "";
}
