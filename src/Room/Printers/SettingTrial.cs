using System.Globalization;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.Room.Printers;

/// <summary>What the eye sees wrong on a printed test, as bits.</summary>
[Flags]
public enum TestFaults
{
    None = 0,

    /// <summary>The head touched the paper: smears, marks at the edges.</summary>
    HeadStrike = 1,

    /// <summary>Ink stands in pools or mottles in the darks.</summary>
    Pooling = 2,

    /// <summary>Patches run into each other.</summary>
    Running = 4,

    /// <summary>Bands across the feed.</summary>
    Banding = 8,
}

/// <summary>One printed test of a paper on a printer before its first chart: how the driver stood, what was read, what was seen.</summary>
public sealed class SettingTrial
{
    public required Guid Id { get; init; }

    public required PaperCode Paper { get; init; }

    public required PrinterCode Printer { get; init; }

    public required string MediaSetting { get; init; }

    /// <summary>More or less ink than the media setting lays by itself, in per cent; 0 as it is.</summary>
    public required int InkLoad { get; init; }

    /// <summary>As the driver or the printer calls it.</summary>
    public required string PlatenGap { get; init; }

    public required TestFaults Seen { get; init; }

    public string Note { get; init; } = "";

    /// <summary>SHA-256 of its measurement; none where it was only looked at.</summary>
    public string? FileHash { get; init; }

    /// <summary>Density of its blackest patch.</summary>
    public double? DMax { get; init; }

    /// <summary>Mean C*ab of the six solids.</summary>
    public double? Solids { get; init; }

    /// <summary>How far it gets lighter again while ink is added, L*.</summary>
    public double? StepsBack { get; init; }

    /// <summary>Mean dE00 between patches printed alike.</summary>
    public double? Grain { get; init; }

    /// <summary>Chosen: the printing condition stands on it.</summary>
    public DateTimeOffset? ChosenAt { get; set; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    public string Setting => string.Create(CultureInfo.CurrentCulture,
        $"{MediaSetting}, ink {(InkLoad == 0 ? "as it is" : $"{InkLoad:+0;−0} %")}, platen gap {(PlatenGap.Length == 0 ? "as it is" : PlatenGap)}");
}

/// <summary>What a trial is worth beside the others of its paper on its printer.</summary>
/// <param name="Trial">Which.</param>
/// <param name="Against">What speaks against it; none if nothing does.</param>
/// <param name="IsBest">It is the one to take.</param>
/// <param name="Why">With its numbers.</param>
public sealed record SettingChoice(SettingTrial Trial, string? Against, bool IsBest, string Why)
{
    // Ours, no source: printers repeat D-max to .03; PaperFinding calls the same steps and grain too much ink.
    private const double AsDeep = 0.03;   // of density
    private const double AsStrong = 1;    // C*ab
    private const double Reverses = 1;    // L*
    private const double Mottled = 1.2;   // dE00

    /// <summary>Judges trials: of those nothing speaks against, the deepest black; of those as deep, the strongest colours; of those as strong, the least ink.</summary>
    public static IReadOnlyList<SettingChoice> Of(IReadOnlyList<SettingTrial> trials)
    {
        var sound = trials.Where(t => Fault(t) is null && t.DMax is not null).ToList();
        var deepest = sound.Select(t => t.DMax!.Value).DefaultIfEmpty(0).Max();
        var deep = sound.Where(t => t.DMax >= deepest - AsDeep).ToList();
        var strongest = deep.Select(t => t.Solids ?? 0).DefaultIfEmpty(0).Max();
        var best = deep.Where(t => (t.Solids ?? 0) >= strongest - AsStrong).OrderBy(t => t.InkLoad).ThenByDescending(t => t.DMax).FirstOrDefault();
        return [.. trials.Select(t => new SettingChoice(t, Fault(t), t == best, Said(t, best, deepest, strongest)))];
    }

    private static string? Fault(SettingTrial trial) => trial switch
    {
        { Seen: var seen } when seen.HasFlag(TestFaults.HeadStrike) => "the head touches the paper: a wider platen gap",
        { Seen: var seen } when seen.HasFlag(TestFaults.Pooling) => "ink stands in pools: less ink",
        { Seen: var seen } when seen.HasFlag(TestFaults.Running) => "patches run into each other: less ink, or let it dry between passes",
        { Seen: var seen } when seen.HasFlag(TestFaults.Banding) => "bands across the feed: align the feed, or print slower",
        { StepsBack: > Reverses } => string.Create(CultureInfo.CurrentCulture, $"with more ink it gets lighter again, by {trial.StepsBack:0.0} L*: less ink"),
        { Grain: > Mottled } => string.Create(CultureInfo.CurrentCulture, $"patches printed alike differ by {trial.Grain:0.0} dE00: less ink"),
        _ => null,
    };

    private static string Said(SettingTrial trial, SettingTrial? best, double deepest, double strongest) =>
        trial.DMax is not { } black ? "not measured"
        : string.Create(CultureInfo.CurrentCulture, $"D-max {black:0.00}{(trial.Solids is { } s ? $", solids {s:0} C*" : "")}")
            + (trial == best || Fault(trial) is not null ? ""
                : black < deepest - AsDeep ? string.Create(CultureInfo.CurrentCulture, $"; another reaches {deepest:0.00}")
                : trial.Solids < strongest - AsStrong ? string.Create(CultureInfo.CurrentCulture, $"; another holds {strongest:0} C*")
                : "; another does as much with less ink");
}
