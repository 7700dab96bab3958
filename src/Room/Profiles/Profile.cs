using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.Room.Profiles;

/// <summary>A profile file and what the room knows of it.</summary>
public sealed class Profile
{
    public required int Number { get; init; }

    public required ConditionCode Condition { get; init; }

    /// <summary>1 for the first of its condition.</summary>
    public required int Version { get; init; }

    public required string Name { get; set; }

    /// <summary>SHA-256 of the file, by which it is kept.</summary>
    public required string FileHash { get; init; }

    /// <summary>The reading it was made from; none for one that was brought in.</summary>
    public int? MadeFrom { get; init; }

    public required DateTimeOffset MadeAt { get; init; }

    public required PersonName By { get; init; }

    public Standing Standing { get; set; } = Standing.New;

    /// <summary>Why it stands so, in words.</summary>
    public string StandingWhy { get; set; } = "";

    public double? MeanError { get; set; }

    public double? P95Error { get; set; }

    public double? MaxError { get; set; }

    public double? GamutVolume { get; set; }

    /// <summary>The whole judgement, as JSON of the App's own form.</summary>
    public string? Worth { get; set; }

    /// <summary>The last day a strip or chart confirmed it.</summary>
    public DateTimeOffset? CheckedAt { get; set; }
}

/// <summary>A chart or strip that was read: one file, as it came.</summary>
public sealed class Reading
{
    public required int Number { get; init; }

    public required Papers.PaperCode Paper { get; init; }

    /// <summary>The condition it was printed under; none for a bare paper.</summary>
    public ConditionCode? Condition { get; init; }

    public required string FileName { get; init; }

    /// <summary>SHA-256 of the file, by which it is kept.</summary>
    public required string FileHash { get; init; }

    /// <summary>"M0", "M1", "M2", "M3", or "not stated".</summary>
    public required string MCondition { get; init; }

    public required int Patches { get; init; }

    /// <summary>The serial of the instrument, where it was said.</summary>
    public string Instrument { get; init; } = "";

    /// <summary>The lot that was printed on, where it was said.</summary>
    public Shelf.LotCode? Lot { get; init; }

    /// <summary>Hours between print and reading, where it is one of several timed readings.</summary>
    public double? HoursAfter { get; init; }

    /// <summary>Whether black lay under the sheet, rather than white or more of the same.</summary>
    public bool OverBlack { get; init; }

    /// <summary>What it says of the paper, as JSON of the App's own form.</summary>
    public string? Figures { get; set; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    /// <summary>What was found in it, as JSON of the App's own form.</summary>
    public string Findings { get; set; } = "[]";
}

/// <summary>A strip read against a profile in use.</summary>
public sealed class StripReading
{
    public required int Number { get; init; }

    public required int Profile { get; init; }

    public int? Reading { get; init; }

    public required double MeanError { get; init; }

    public required double MaxError { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    public string Note { get; init; } = "";

    public required string FileName { get; init; }

    /// <summary>SHA-256 of the file, by which it is kept.</summary>
    public required string FileHash { get; init; }

    public required int Patches { get; init; }

    /// <summary>The mean shift of its patches from their reference readings, in L*, a* and b*.</summary>
    public required double ShiftL { get; init; }

    public required double ShiftA { get; init; }

    public required double ShiftB { get; init; }

    /// <summary>Its patches about that mean, over what is usual.</summary>
    public required double Shape { get; init; }

    /// <summary>What it says and why, as JSON of the App's own form.</summary>
    public required string Verdict { get; init; }
}
