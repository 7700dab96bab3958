using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Papers;

/// <summary>The charts the room has read of its papers, as <see cref="AssessPaper"/> takes them.</summary>
internal static class PaperCharts
{
    public static async Task<ILookup<PaperCode, AssessPaper.Chart>> OfAsync(
        RoomDb db, FileShelf files, IReadOnlyCollection<PaperCode>? papers, CancellationToken cancel)
    {
        // Strips say nothing of a paper and keep no figures.
        var readings = await db.Readings.AsNoTracking().Where(r => r.Figures != null).OrderByDescending(r => r.Number).ToListAsync(cancel);
        return readings.Where(r => papers?.Contains(r.Paper) is not false)
            .Select((r, i) => (r.Paper, Chart: new AssessPaper.Chart(
                files.PathOf(r.FileHash), PaperLook.Read(r.Figures), $"reading {r.Number}, {r.FileName}", r.Condition?.Value ?? "", r.Lot?.Value ?? "", i, r.HoursAfter, r.OverBlack)))
            .Where(c => c.Chart.Known is not null)
            .ToLookup(c => c.Paper, c => c.Chart);
    }
}
