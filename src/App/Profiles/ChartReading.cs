using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Reads a chart from a file, and looks for patches that do not fit the others.</summary>
internal static class ChartReading
{
    private const double Suspicious = 8; // robust standard deviations
    private const double PerMad = 1.4826;

    public static async Task<Outcome<ReadResult>> ReadAsync(string path, CancellationToken cancel)
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

        var read = MeasurementFile.Read(await File.ReadAllBytesAsync(path, cancel), limits);
        return read.Fault is { } fault ? new CannotBeRead(file.Name, fault.Line, fault.Message) : read;
    }

    /// <summary>Patches that the others contradict: misread, most likely.</summary>
    public static IReadOnlyList<Suspect> Suspects(MeasurementSet chart, CancellationToken cancel)
    {
        var patches = chart.Averaged();
        if (patches.Length < 30 || chart.Channels is not (1 or 3 or 4))
        {
            return [];
        }

        var off = PrinterModels.LeaveOneOut([chart], cancel).Select(d => d.Value).ToArray();
        var middle = Median(off);
        var spread = PerMad * Median([.. off.Select(o => Math.Abs(o - middle))]);
        return [.. patches.Select((p, i) => (p, off[i])).Where(x => x.Item2 > middle + (Suspicious * spread))
            .OrderByDescending(x => x.Item2)
            .Select(x => new Suspect(chart.Patches.First(q => q.Device.AsSpan().SequenceEqual(x.p.Device.AsSpan())).Id, x.Item2))];
    }

    private static double Median(double[] values)
    {
        var sorted = values.Order().ToArray();
        return sorted.Length % 2 == 1 ? sorted[sorted.Length / 2] : (sorted[(sorted.Length / 2) - 1] + sorted[sorted.Length / 2]) / 2;
    }
}

/// <summary>A patch that does not fit the others, and by how much.</summary>
public sealed record Suspect(string Patch, double Off);

public sealed record NoSuchFile(string Path) : Refusal($"There is no file {Path}.");

public sealed record CannotBeRead(string Name, int Line, string Why)
    : Refusal($"{Name} cannot be read{(Line > 0 ? $", line {Line}" : "")}: {Why} Nothing was kept.");
