using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;

namespace Goodsheet.App.Orders;

/// <summary>The photograph of what was wrong with a print, small enough for a page and a letter to a supplier.</summary>
public sealed class ShowPhotograph(RoomStore room, FileShelf files)
{
    private const int LongSide = 1_600; // pixels; a crease is seen, and a phone loads it at once

    /// <param name="complaint">Its number.</param>
    /// <param name="which">Of its photographs, from 1.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>A JPEG; none when there is no such photograph.</returns>
    public async Task<byte[]?> RunAsync(int complaint, int which = 1, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var hash = (await db.Complaints.AsNoTracking().SingleOrDefaultAsync(c => c.Number == complaint, cancel))?.Photographs.ElementAtOrDefault(which - 1);
        return hash is not null && files.Has(hash) ? await Task.Run(() => Thumbnail.Jpeg(files.PathOf(hash), LongSide), cancel) : null;
    }
}
