using Goodsheet.App.Files;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Makes a chart for one of the room's printers, and keeps its files for the page to hand out.</summary>
public sealed class MakeRoomChart(FileShelf files)
{
    public async Task<Outcome<Done>> RunAsync(Asked request, CancellationToken cancel = default)
    {
        var asked = request with { Name = ChartFiles.NameOf(request.Name) };
        var chart = await Task.Run(() => ChartFiles.Design(asked, null, []), cancel);
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

    /// <param name="Files">Sheets in order, then the reference.</param>
    /// <param name="Patches">On all sheets together.</param>
    /// <param name="Sheets">How many sheets it took.</param>
    /// <param name="PatchesInStrip">What the instrument's program asks for.</param>
    public sealed record Done(IReadOnlyList<ChartFile> Files, int Patches, int Sheets, int PatchesInStrip);

    public sealed record ChartFile(string Name, string Hash);

    public sealed record DiskIsFull() : Refusal("The room's disk is nearly full: a sheet takes up to 100 MB. Nothing was written.");
}
