using Goodsheet.Room.Control;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Care;

/// <summary>Something done again and again so that paper, printer and room stay fit: a round, a nozzle check, a cleaning.</summary>
public sealed class CareTask
{
    public required int Number { get; init; }

    public required string Name { get; set; }

    public PrinterCode? Printer { get; init; }

    /// <summary>Days between one time and the next; 1 is daily.</summary>
    public required int EveryDays { get; set; }

    /// <summary>The time of day it belongs to: the morning, the end.</summary>
    public TimeOnly? At { get; set; }

    /// <summary>How, one step a line.</summary>
    public string Steps { get; set; } = "";

    public string Caution { get; set; } = "";

    /// <summary>The waste it helps against, if one cause above others.</summary>
    public WasteCause? Against { get; set; }

    /// <summary>What doing it is in the history of its printer, where prints may show it; none otherwise.</summary>
    public EventKind? Marks { get; set; }

    public DateTimeOffset? LastAt { get; set; }

    public IReadOnlyList<string> StepList =>
        Steps.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    public bool IsDue(DateOnly today, TimeZoneInfo zone) =>
        LastAt is not { } last || DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(last, zone).DateTime).AddDays(EveryDays) <= today;
}

/// <summary>A task that was done.</summary>
public sealed class CareDone
{
    public required Guid Id { get; init; }

    public required int Task { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    public string Note { get; init; } = "";
}

/// <summary>The air in the room.</summary>
public sealed class ClimateReading
{
    public required DateTimeOffset At { get; init; }

    /// <summary>In degrees Celsius.</summary>
    public required double Temperature { get; init; }

    /// <summary>Relative, in per cent.</summary>
    public required double Humidity { get; init; }
}
