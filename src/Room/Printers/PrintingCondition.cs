using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Printers;

/// <summary>The room's short name of a printing condition, such as "heron-marl".</summary>
public readonly record struct ConditionCode(string Value)
{
    public override string ToString() => Value;
}

/// <summary>One paper on one printer with everything set one way. A profile holds for exactly one of these.</summary>
public sealed class PrintingCondition
{
    public required ConditionCode Code { get; init; }

    public required PrinterCode Printer { get; init; }

    public required PaperCode Paper { get; init; }

    public required string MediaSetting { get; init; }

    public required int Ppi { get; init; }

    public required BlackInk Black { get; init; }

    /// <summary>The set of limits its strips are held to, by name.</summary>
    public string Tolerance { get; set; } = Control.Tolerance.Usual;
}

/// <summary>Everything that must stay as it was for a profile to hold, at one time. Added to, never overwritten.</summary>
public sealed record Fingerprint
{
    public required ConditionCode Condition { get; init; }

    public required int Number { get; init; }

    public required string Firmware { get; init; }

    public required string Driver { get; init; }

    public required string System { get; init; }

    /// <summary>The ink set or cartridge batch, as the keeper writes it.</summary>
    public required string Ink { get; init; }

    public string? PaperLot { get; init; }

    /// <summary>More or less ink than the media setting lays by itself, in per cent; 0 as it is.</summary>
    public int InkLoad { get; init; }

    /// <summary>As the driver or the printer calls it; empty as it is.</summary>
    public string PlatenGap { get; init; } = "";

    public required DateTimeOffset At { get; init; }

    public required People.PersonName By { get; init; }

    /// <summary>What changed against the one before, in words; none for the first.</summary>
    public string? Changed { get; init; }

    public bool IsAs(Fingerprint other) => (Firmware, Driver, System, Ink, PaperLot, InkLoad, PlatenGap)
        == (other.Firmware, other.Driver, other.System, other.Ink, other.PaperLot, other.InkLoad, other.PlatenGap);
}
