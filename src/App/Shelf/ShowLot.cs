using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>One lot: what is left of it, and line by line why.</summary>
public sealed class ShowLot(RoomStore room)
{
    /// <summary>The newest moves shown; the rest is a page of its own.</summary>
    private const int Shown = 200;

    public async Task<Page?> RunAsync(LotCode code, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var lot = await db.Lots.AsNoTracking().SingleOrDefaultAsync(l => l.Code == code, cancel);
        if (lot is null)
        {
            return null;
        }

        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == lot.Paper, cancel);
        var format = await db.Formats.AsNoTracking().SingleAsync(f => f.Code == lot.Format, cancel);
        var moves = await db.Moves.AsNoTracking().Where(m => m.Lot == code)
            .OrderByDescending(m => m.Number).Take(Shown).ToListAsync(cancel);
        return new(lot, paper, format, await db.BalanceAsync(code, cancel), moves);
    }

    public sealed record Page(Lot Lot, Paper Paper, Format Format, LotBalance Balance, IReadOnlyList<Move> Moves);
}
