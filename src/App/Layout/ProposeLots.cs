using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Layout;

/// <summary>The lots an order could be printed on, best first: offcuts that hold all of it, then what is out of date first.</summary>
public sealed class ProposeLots(RoomStore room, TimeProvider clock)
{
    private const double SecondsToTry = 0.02;

    public async Task<IReadOnlyList<Line>> RunAsync(int order, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var prints = (await db.PrintLines.AsNoTracking().Where(l => l.Order == order && l.PreparedHash != null).ToListAsync(cancel)).Where(l => l.ToPrint > 0).ToList();
        if (prints.Count == 0)
        {
            return [];
        }

        var paper = prints[0].Paper;
        var printers = await (
            from profile in db.Profiles.AsNoTracking()
            join condition in db.Conditions on profile.Condition equals condition.Code
            join printer in db.Printers on condition.Printer equals printer.Code
            where condition.Paper == paper && !printer.Gone
            orderby profile.Number descending
            select printer).ToListAsync(cancel);
        var lots = await db.Lots.AsNoTracking().Where(l => l.Paper == paper).ToListAsync(cancel);
        var formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel);
        var today = clock.Today();
        var lines = new List<Line>();
        foreach (var lot in lots.Where(l => ShelfRules.MayGoToClient(l, today)))
        {
            var has = (await db.BalanceAsync(lot.Code, cancel)).OnShelf;
            if (has > 0)
            {
                var format = formats[lot.Format];
                var needs = printers.Count == 0 ? null : await NeedsAsync(db, prints, format, printers[0], cancel);
                lines.Add(new(lot.Code, lot.Format, format.IsRoll, has, needs, lot.CutFrom is not null, lot.GoodUntil));
            }
        }

        return
        [
            .. lines.OrderByDescending(l => l.Suffices).ThenByDescending(l => l.Suffices && l.IsOffcut)
                .ThenBy(l => l.GoodUntil ?? DateOnly.MaxValue).ThenBy(l => l.Lot.Value, StringComparer.Ordinal),
        ];
    }

    private async Task<long?> NeedsAsync(RoomDb db, List<Goodsheet.Room.Orders.PrintLine> prints, Format format, Printer printer, CancellationToken cancel)
    {
        var paper = await RunPaper.OfAsync(db, format, printer, prints[0].Paper, cancel);
        var nest = paper.Lay([.. prints.Select(p => paper.Of(p, p.ToPrint))], [], 1, clock, SecondsToTry);
        return nest.Granted ? Runs.RunLayout.Of(nest.Value, prints).Needs : null;
    }

    /// <param name="Has">Sheets, or mm of roll, on the shelf.</param>
    /// <param name="Needs">What the order would take of it; none when it does not fit on such paper at all.</param>
    /// <param name="IsOffcut">It was cut from another lot.</param>
    public sealed record Line(LotCode Lot, FormatCode Format, bool IsRoll, long Has, long? Needs, bool IsOffcut, DateOnly? GoodUntil)
    {
        public bool Suffices => Needs <= Has;
    }
}
