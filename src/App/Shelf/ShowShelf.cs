using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Shelf;

/// <summary>What lies on the shelf: papers by formats, and the lots behind each.</summary>
public sealed class ShowShelf(RoomStore room, TimeProvider clock)
{
    public async Task<Page> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var papers = await db.Papers.AsNoTracking().Where(p => p.LineUp != LineUp.Gone).ToListAsync(cancel);
        var formats = await db.Formats.AsNoTracking().OrderBy(f => f.Order).ToListAsync(cancel);
        var items = await db.Items.AsNoTracking().ToListAsync(cancel);
        var lines = await ShelfLines.Of(db)
            .Where(l => request.Paper == null || l.Paper == request.Paper).ToListAsync(cancel);
        return new(clock.Today(), papers, formats, items, [.. lines.Where(l => l.OnShelf > 0)]);
    }

    /// <param name="Paper">Only this paper, or all.</param>
    public sealed record Request(PaperCode? Paper = null);

    public sealed record Page(
        DateOnly Today, IReadOnlyList<Paper> Papers, IReadOnlyList<Format> Formats, IReadOnlyList<Item> Items,
        IReadOnlyList<ShelfLines.Line> Lots);
}
