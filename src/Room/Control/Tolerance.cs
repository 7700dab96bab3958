namespace Goodsheet.Room.Control;

/// <summary>How far a strip may stand from its chart while prints are still as promised: a named set of limits, the room's own.</summary>
/// <remarks>Beside the control chart: that one says whether something moved, this whether it matters to a client.</remarks>
public sealed class Tolerance
{
    /// <summary>The set every condition is held to until the keeper says otherwise.</summary>
    public const string Usual = "Usual";

    private const double Most = 20; // dE00: past it a limit limits nothing

    public required string Name { get; init; }

    /// <summary>Mean over the patches, dE00.</summary>
    public required double Mean { get; set; }

    /// <summary>Any one patch, dE00.</summary>
    public required double Largest { get; set; }

    /// <summary>Bare paper, dE00.</summary>
    public required double White { get; set; }

    /// <summary>Greys: how far in a* and b* together.</summary>
    public required double Greys { get; set; }

    /// <summary>Where its numbers come from, as the keeper would tell it.</summary>
    public string Source { get; set; } = "";

    /// <summary>Every limit is above none and not beyond sense.</summary>
    public bool IsSound => ((double[])[Mean, Largest, White, Greys]).All(v => v is > 0 and <= Most) && Largest >= Mean;

    /// <summary>What a new room begins with; to be made the room's own.</summary>
    public static IReadOnlyList<Tolerance> New() =>
    [
        new() { Name = Usual, Mean = 1.5, Largest = 4, White = 1.5, Greys = 1.5, Source = "common practice, no source" },
        new() { Name = "Exacting", Mean = 1, Largest = 3, White = 1, Greys = 1, Source = "common practice, no source" },
        new() { Name = "Contract proof", Mean = 2.5, Largest = 5, White = 3, Greys = 2, Source = "from memory of ISO 12647-7:2016 (mean 2.5, any patch 5.0, substrate 3.0, CMY greys 2.0 on average): no claim to meet it" },
    ];

    /// <summary>Each limit with what a strip shows of it, in the order a person reads them.</summary>
    public IReadOnlyList<Held> Hold(double mean, double largest, double? white, double? greys) =>
    [
        new("All patches on average, dE00", mean, Mean),
        new("Any one patch, dE00", largest, Largest),
        .. white is { } w ? (Held[])[new("Bare paper, dE00", w, White)] : [],
        .. greys is { } g ? (Held[])[new("Greys, a* and b* together", g, Greys)] : [],
    ];

    /// <param name="What">Is held.</param>
    /// <param name="Shows">The strip.</param>
    /// <param name="MayBe">The limit.</param>
    public sealed record Held(string What, double Shows, double MayBe)
    {
        public bool IsOver => Shows > MayBe;
    }
}
