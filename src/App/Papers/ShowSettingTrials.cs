using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Papers;

/// <summary>The printed tests of a paper, printer by printer, and which of them to take.</summary>
public sealed class ShowSettingTrials(RoomStore room)
{
    public async Task<Page?> RunAsync(PaperCode code, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        if (await db.Papers.AsNoTracking().SingleOrDefaultAsync(p => p.Code == code, cancel) is not { } paper)
        {
            return null;
        }

        var printers = await db.Printers.AsNoTracking().Where(p => !p.Gone).OrderBy(p => p.Name).ToListAsync(cancel);
        var trials = (await db.SettingTrials.AsNoTracking().Where(t => t.Paper == code).ToListAsync(cancel)).OrderBy(t => t.At).ToLookup(t => t.Printer);
        return new(paper, printers, [.. printers.Where(p => trials.Contains(p.Code)).Select(p => new Side(p, SettingChoice.Of([.. trials[p.Code]])))]);
    }

    /// <param name="Paper">Which is to be printed.</param>
    /// <param name="Printers">All that could.</param>
    /// <param name="Sides">Those on which it was tried.</param>
    public sealed record Page(Paper Paper, IReadOnlyList<Printer> Printers, IReadOnlyList<Side> Sides);

    public sealed record Side(Printer Printer, IReadOnlyList<SettingChoice> Choices);
}
