using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Reads a chart from a file, and looks for patches that do not fit the others.</summary>
internal static class ChartReading
{
    private const int FewestToJudge = 30; // with fewer, each patch is too much alone to be contradicted

    public static async Task<Outcome<ReadResult>> ReadAsync(string path, CancellationToken cancel, MCondition? wanted = null)
    {
        var limits = new ReadLimits();
        var file = new FileInfo(path);
        if (!file.Exists)
        {
            return new NoSuchFile(path);
        }

        if (file.Length > limits.Bytes)
        {
            return new CannotBeRead(file.Name, 0, $"The file is longer than {limits.Bytes / 1_000_000} MB.");
        }

        var read = MeasurementFile.Read(await File.ReadAllBytesAsync(path, cancel), limits, wanted);
        return read.Fault is { } fault ? new CannotBeRead(file.Name, fault.Line, fault.Message) : read;
    }

    /// <summary>What only says how the file was taken: nothing looks wrong, and nothing is to be done.</summary>
    public static string Noted(ReadFinding finding) => finding.Kind is ReadFindingKind.OddReflectance or ReadFindingKind.WrongCount or ReadFindingKind.UnknownFormat or ReadFindingKind.ConditionUnknown
        ? finding.Message : $"{ShowProfiles.AsItCame}{finding.Message}";

    /// <summary>As a reading stores it.</summary>
    public static string Stored(MCondition condition) => condition is MCondition.Unknown ? "not stated" : condition.ToString();

    /// <summary>As a reading has it stored.</summary>
    public static MCondition? ConditionOf(string stored) => Enum.TryParse<MCondition>(stored, out var condition) ? condition : null;

    /// <summary>What looks wrong with the readings: first their order, and where that is right, single patches.</summary>
    /// <param name="chart">In the order it was read.</param>
    /// <param name="strip">Patches to a strip, where it was said; else what the names of the patches tell.</param>
    /// <param name="cancel">Stops it.</param>
    public static Doubts Doubt(MeasurementSet chart, int? strip, CancellationToken cancel)
    {
        if (chart.Averaged().Length < FewestToJudge || chart.Channels is not (1 or 3 or 4))
        {
            return new([], []);
        }

        var length = strip ?? StripPlaces.Length(chart) ?? chart.Patches.Length;
        var order = StripOrder.Find(chart, length, cancel);
        if (order.Count > 0)
        {
            return new([.. order.Select(Words)], []);
        }

        // With a wrong chart or a channel gone every patch is contradicted: nothing to be said of single ones.
        var course = ReadingCourse.Find(chart, cancel);
        return course is { Fault: not CourseFault.Drift } ? new([Words(course, chart)], [])
            : new(course is null ? [] : [Words(course, chart)], [.. Misreads.Find([chart], cancel).Select(m => new Suspect(
                chart.Patches.First(p => p.Device.AsSpan().SequenceEqual(m.Patch.Device.AsSpan())).Id, m.Away.Value))]);
    }

    public static string Words(Suspect patch) => $"Patch {patch.Patch} is {patch.Off:0.0} dE00 from what all others foretell: read it again.";

    private static string Words(CourseFinding found, MeasurementSet chart) => found.Fault switch
    {
        CourseFault.WrongChart => $"The readings do not belong to these device values: off by {found.Size.Value:0.0} dE00 in the middle. Was it another chart, or another reference? Look at the sheet's name.",
        CourseFault.ChannelGone => $"{Where(found, chart)} {Channel(chart, found.Channel)} {(found.To < chart.Patches.Length ? "did not print" : "no longer prints")}: off by {found.Size.Value:0.0} dE00. Check the nozzles and the ink, and print the chart again: no profile is made well from this one.",
        _ => $"The readings move by {found.Size.Value:0.0} dE00 from the first patch to the last. Let the instrument warm up and the print dry, calibrate, and read the chart again.",
    };

    private static string Where(CourseFinding found, MeasurementSet chart) => (found.From, found.To) switch
    {
        (0, var to) when to == chart.Patches.Length => "On the whole chart",
        (var from, var to) when to == chart.Patches.Length => $"From patch {Place(chart, from)} on,",
        var (from, to) => $"From patch {Place(chart, from)} to {Place(chart, to - 1)}",
    };

    // By the name of its place where the file has one; some files put a dash there.
    private static string Place(MeasurementSet chart, int patch) =>
        chart.Patches[patch] is { Name: { } name } && name.Any(char.IsLetterOrDigit) ? name : chart.Patches[patch].Id;

    private static string Channel(MeasurementSet chart, int channel) =>
        chart.Space is DeviceSpace.Grey ? "grey" : chart.Space is DeviceSpace.Cmyk ? ((string[])["cyan", "magenta", "yellow", "black"])[channel]
        : $"what {((string[])["red", "green", "blue"])[channel % 3]} takes away ({((string[])["cyan", "magenta", "yellow"])[channel % 3]} ink)";

    private static string Words(OrderFinding found) => found.Fault switch
    {
        OrderFault.UpsideDown => $"The sheet was read upside down: {Better(found)}. Turn it and read it again.",
        OrderFault.Reversed => $"Strip {found.Strip + 1} was read from its end: {Better(found)}. Read strip {found.Strip + 1} again.",
        OrderFault.LeftOut => $"Strip {found.Strip + 1} was left out: {Better(found)}. From there on each strip holds the readings of the next; read on from strip {found.Strip + 1}.",
        OrderFault.ReadTwice => $"Strip {found.Strip + 1} was read twice: {Better(found)}. After it each strip holds the readings of the one before; read on from strip {found.Strip + 2}.",
        _ => $"Strips {found.Strip + 1} and {found.Other + 1} stand in each other's place: {Better(found)}. Read both again.",
    };

    private static string Better(OrderFinding found) => $"off by {found.AsRead.Value:0.0} dE00 as read, by {found.Mended.Value:0.0} the other way";
}

/// <summary>What looks wrong with a chart's readings.</summary>
/// <param name="Order">What is wrong with the chart as a whole or with its order, in words.</param>
/// <param name="Patches">Patches that the others contradict; not looked for while the whole is wrong.</param>
internal sealed record Doubts(IReadOnlyList<string> Order, IReadOnlyList<Suspect> Patches);

/// <summary>A patch that does not fit the others, and by how much.</summary>
public sealed record Suspect(string Patch, double Off);

public sealed record NoSuchFile(string Path) : Refusal($"There is no file {Path}.");

public sealed record CannotBeRead(string Name, int Line, string Why)
    : Refusal($"{Name} cannot be read{(Line > 0 ? $", line {Line}" : "")}: {Why} Nothing was kept.");
