using Goodsheet.Room.People;

namespace Goodsheet.Room.Runs;

/// <summary>The file of a sheet of a run, or of sheets that are alike: what the printer gets.</summary>
public sealed class RunSheet
{
    public required int Run { get; init; }

    /// <summary>The first sheet it is for, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>How many sheets are printed from it.</summary>
    public required int Copies { get; init; }

    /// <summary>SHA-256 of the file, by which it is kept.</summary>
    public required string FileHash { get; init; }

    /// <summary>Pixels across the feed.</summary>
    public required int Width { get; init; }

    /// <summary>Pixels along the feed.</summary>
    public required int Height { get; init; }

    /// <summary>Where it was handed over; empty before.</summary>
    public string SentTo { get; set; } = "";

    public DateTimeOffset? SentAt { get; set; }

    public PersonName SentBy { get; set; } = PersonName.TheRoom;

    /// <summary>The printer's own number of the job; none when a folder took it.</summary>
    public int? Job { get; set; }

    /// <summary>How often it was handed over again.</summary>
    public int Times { get; set; }

    /// <summary>What the room calls the job: unique, so that it is found again after a power cut.</summary>
    public string JobName => $"Run {Run} sheet {Number}{(Times > 0 ? $" again {Times}" : "")}";
}
