using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Makes a chart for one of the room's printers, and keeps its files for the page to hand out.</summary>
public sealed class MakeRoomChart(RoomStore room, FileShelf files)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var asked = request.Chart with { Name = ChartFiles.NameOf(request.Chart.Name) };
        List<MeasurementSet> known = [];
        if (asked.Kind is ChartKind.Second or ChartKind.Strip)
        {
            await using var db = room.Open();
            var reading = await db.Readings.AsNoTracking().SingleOrDefaultAsync(r => r.Number == request.Reading, cancel);
            if (reading is null || !files.Has(reading.FileHash))
            {
                return new NoSuchReading();
            }

            var read = await ChartReading.ReadAsync(files.PathOf(reading.FileHash), cancel, ChartReading.ConditionOf(reading.MCondition));
            if (!read.Granted)
            {
                return read.Refusal;
            }

            known.Add(read.Value.Set!);
        }

        var chart = await Task.Run(() => ChartFiles.Design(asked, known, cancel), cancel);
        if (!chart.Granted)
        {
            return chart.Refusal;
        }

        if (files.FreeSpace < FileShelf.LeastFree)
        {
            return new DiskIsFull();
        }

        var folder = Directory.CreateTempSubdirectory("goodsheet-chart");
        try
        {
            var kept = new List<ChartFile>();
            foreach (var path in await Task.Run(() => ChartFiles.Write(chart.Value, asked, folder.FullName, cancel), cancel))
            {
                await using var content = File.OpenRead(path);
                kept.Add(new(Path.GetFileName(path), (await files.KeepAsync(content, cancel)).Hash));
            }

            return new Done(kept, chart.Value.Patches.Length, chart.Value.Sheets, chart.Value.Sheet.PatchesInStrip);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <param name="Chart">What is asked.</param>
    /// <param name="Reading">The reading that a second chart or a strip is made after.</param>
    public sealed record Request(Asked Chart, int? Reading = null);

    /// <param name="Files">Sheets in order, then all of them as PDF, then the reference.</param>
    /// <param name="Patches">On all sheets together.</param>
    /// <param name="Sheets">How many sheets it took.</param>
    /// <param name="PatchesInStrip">What the instrument's program asks for.</param>
    public sealed record Done(IReadOnlyList<ChartFile> Files, int Patches, int Sheets, int PatchesInStrip);

    public sealed record ChartFile(string Name, string Hash);

    public sealed record NoSuchReading() : Refusal("Choose the reading that it is made after: a second chart and a control strip belong to a chart that was measured. Nothing was written.");

    public sealed record DiskIsFull() : Refusal("The room's disk is nearly full: a sheet takes up to 100 MB. Nothing was written.");
}
