using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
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
        var about = $"lot {code}";
        return new(
            lot, paper, format, await db.BalanceAsync(code, cancel), moves,
            await db.Formats.AsNoTracking().Where(f => !f.IsRoll && f.Code != lot.Format).OrderBy(f => f.Order).ToListAsync(cancel),
            await db.Decisions.AsNoTracking().Where(d => d.About == about).OrderByDescending(d => d.Id).ToListAsync(cancel),
            await db.Lots.AsNoTracking().Where(l => l.CutFrom == code).Select(l => l.Code).ToListAsync(cancel));
    }

    /// <param name="Smaller">What it might be cut into.</param>
    /// <param name="Decisions">What was decided about it, newest first.</param>
    /// <param name="CutInto">The lots that were cut from it.</param>
    public sealed record Page(
        Lot Lot, Paper Paper, Format Format, LotBalance Balance, IReadOnlyList<Move> Moves, IReadOnlyList<Format> Smaller, IReadOnlyList<Decision> Decisions,
        IReadOnlyList<LotCode> CutInto);
}
