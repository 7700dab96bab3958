using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>What lies on the shelf: papers by formats, and the lots behind each.</summary>
public sealed class ShowShelf(RoomStore room, TimeProvider clock)
{
    /// <summary>Over how many days the use is averaged.</summary>
    private const int UseDays = 60;

    public async Task<Page> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var papers = await db.Papers.AsNoTracking().Where(p => p.LineUp != LineUp.Gone).ToListAsync(cancel);
        var formats = await db.Formats.AsNoTracking().OrderBy(f => f.Order).ToListAsync(cancel);
        var items = await db.Items.AsNoTracking().ToListAsync(cancel);
        var lines = await ShelfLines.Left(db)
            .Where(l => request.Paper == null || l.Paper == request.Paper).ToListAsync(cancel);
        return new(clock.Today(), papers, formats, items, lines, await PerDayAsync(db, cancel));
    }

    // What went to printers, tests and waste, less what came back; not what was sold back, miscounted or cut up.
    private async Task<IReadOnlyDictionary<ItemCode, double>> PerDayAsync(RoomDb db, CancellationToken cancel)
    {
        var since = clock.GetUtcNow().AddDays(-UseDays);
        Account[] notUse = [Account.Supplier, Account.CountDifference, Account.Scrap, Account.Trimmed];
        var used = await (
            from move in db.Moves.AsNoTracking()
            join lot in db.Lots on move.Lot equals lot.Code
            where move.At >= since && ((move.From == Account.Shelf && !notUse.Contains(move.To)) || (move.To == Account.Shelf && !notUse.Contains(move.From)))
            group move by new { lot.Paper, lot.Format } into item
            select new { item.Key.Paper, item.Key.Format, Sum = item.Sum(m => m.From == Account.Shelf ? m.Quantity : -m.Quantity) }).ToListAsync(cancel);
        return used.Where(u => u.Sum > 0).ToDictionary(u => new ItemCode(u.Paper, u.Format), u => (double)u.Sum / UseDays);
    }

    /// <param name="Paper">Only this paper, or all.</param>
    public sealed record Request(PaperCode? Paper = null);

    public sealed record Page(
        DateOnly Today, IReadOnlyList<Paper> Papers, IReadOnlyList<Format> Formats, IReadOnlyList<Item> Items,
        IReadOnlyList<ShelfLines.Line> Lots, IReadOnlyDictionary<ItemCode, double> PerDay)
    {
        /// <summary>How many days what may go to clients lasts at the use of the last weeks; none when nothing was used.</summary>
        public double? DaysLeft(ItemCode item) => PerDay.TryGetValue(item, out var perDay)
            ? Lots.Where(l => l.Paper == item.Paper && l.Format == item.Format && l.IsForClients(Today)).Sum(l => l.OnShelf) / perDay : null;
    }
}
