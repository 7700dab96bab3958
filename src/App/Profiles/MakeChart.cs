using Goodsheet.Colour.Measurement;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Makes a chart to print and measure: its sheets as TIFF and its reference as CGATS text, into a folder.</summary>
public sealed class MakeChart
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (!Directory.Exists(request.Folder))
        {
            return new NoSuchFolder(request.Folder);
        }

        var asked = request.Chart with { Name = ChartFiles.NameOf(request.Chart.Name) };
        if (Directory.EnumerateFiles(request.Folder, $"{asked.Name}-*.tif").Any() || File.Exists(Path.Combine(request.Folder, $"{asked.Name}.txt")))
        {
            return new AlreadyThere(asked.Name);
        }

        var known = new List<MeasurementSet>();
        foreach (var file in request.After)
        {
            var read = await ChartReading.ReadAsync(file, cancel);
            if (!read.Granted)
            {
                return read.Refusal;
            }

            known.Add(read.Value.Set!);
        }

        if (known.Count == 0 && asked.Kind is ChartKind.Second or ChartKind.Strip)
        {
            return new NeedsAReading();
        }

        asked = asked.Kind is ChartKind.First && known.Count > 0 ? asked with { Kind = ChartKind.Second } : asked;
        return await Task.Run<Outcome<Done>>(() =>
        {
            var chart = ChartFiles.Design(asked, known, cancel);
            return chart.Granted
                ? new Done(ChartFiles.Write(chart.Value, asked, request.Folder, cancel), chart.Value.Patches.Length, chart.Value.Sheets, chart.Value.Sheet.PatchesInStrip)
                : chart.Refusal;
        }, cancel);
    }
#pragma warning restore CA1822

    /// <param name="Chart">What is asked.</param>
    /// <param name="Folder">Where to; it must be there.</param>
    /// <param name="After">Measured charts of the same condition: the new one goes where they leave most open.</param>
    public sealed record Request(Asked Chart, string Folder, IReadOnlyList<string> After);

    /// <param name="Files">Sheets in order, then all of them as PDF, then the reference.</param>
    /// <param name="Patches">On all sheets together.</param>
    /// <param name="Sheets">How many sheets it took.</param>
    /// <param name="PatchesInStrip">What the instrument's program asks for.</param>
    public sealed record Done(IReadOnlyList<string> Files, int Patches, int Sheets, int PatchesInStrip);

    public sealed record NoSuchFolder(string Folder) : Refusal($"There is no folder {Folder}.");

    public sealed record AlreadyThere(string Name) : Refusal($"A chart {Name} is there already. It was left alone: give the new one another name.");

    public sealed record NeedsAReading() : Refusal("A second chart and a control strip are made after a reading: name the measured chart.");
}
