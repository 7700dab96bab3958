namespace Goodsheet.Room.Papers;

/// <summary>What is tried by hand on the bench, or looked at, and cannot be had from a chart.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum BenchKind
{
    /// <summary>Minutes until a finger leaves no trace.</summary>
    TouchDry = 1,

    /// <summary>A drop of water for a minute on a dark patch.</summary>
    WaterDrop = 2,

    /// <summary>A fingernail across a black.</summary>
    Scratch = 3,

    /// <summary>Folded, or bent over a stretcher's edge.</summary>
    Fold = 4,

    /// <summary>How far the corners stand up, in mm.</summary>
    Flatness = 5,

    Feel = 6,

    /// <summary>Dust and fibre when it is cut or brushed.</summary>
    Dust = 7,

    /// <summary>Darks that shimmer like metal against the light.</summary>
    Bronzing = 8,

    /// <summary>Inked and bare places that shine differently.</summary>
    GlossDifferential = 9,

    /// <summary>Gloss of the bare paper, in gloss units.</summary>
    GlossOfPaper = 10,

    /// <summary>Gloss of a full black, in gloss units.</summary>
    GlossOfBlack = 11,
}

/// <summary>How a bench test went.</summary>
public enum BenchVerdict
{
    Fine = 1,
    TakeCare = 2,
    No = 3,
}

/// <summary>One bench test of a paper, by hand, on one day. The newest of a kind counts; the earlier ones stay.</summary>
public sealed class BenchTest
{
    public required Guid Id { get; init; }

    public required PaperCode Paper { get; init; }

    public required BenchKind Kind { get; init; }

    public required BenchVerdict Verdict { get; init; }

    /// <summary>Minutes, mm or gloss units, as its kind has it.</summary>
    public double? Value { get; init; }

    public string Note { get; init; } = "";

    /// <summary>SHA-256 of a photograph of it.</summary>
    public string? Photo { get; init; }

    public required DateTimeOffset At { get; init; }

    public required People.PersonName By { get; init; }

    /// <summary>The word for it on the page.</summary>
    public static string Words(BenchKind kind) => kind switch
    {
        BenchKind.TouchDry => "Touch-dry",
        BenchKind.WaterDrop => "Water drop",
        BenchKind.Scratch => "Scratch, fingernail",
        BenchKind.Fold => "Fold, or edge of a stretcher",
        BenchKind.Flatness => "Flat on the table",
        BenchKind.GlossDifferential => "Gloss differential",
        BenchKind.GlossOfPaper => "Gloss, bare paper",
        BenchKind.GlossOfBlack => "Gloss, full black",
        _ => kind.ToString(),
    };

    /// <summary>The unit of its value; none where it is told in words.</summary>
    public static string? Unit(BenchKind kind) => kind switch
    {
        BenchKind.TouchDry => "minutes",
        BenchKind.Flatness => "mm",
        BenchKind.GlossOfPaper or BenchKind.GlossOfBlack => "gloss units",
        _ => null,
    };
}
