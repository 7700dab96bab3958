using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>All that a claim on a supplier is made of: the complaint, and each lot that its print was made on.</summary>
public sealed class ShowClaim(RoomStore room)
{
    public async Task<Page?> RunAsync(int complaint, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await OfAsync(db, complaint, cancel);
    }

    internal static async Task<Page?> OfAsync(RoomDb db, int complaint, CancellationToken cancel)
    {
        if (await db.Complaints.AsNoTracking().SingleOrDefaultAsync(c => c.Number == complaint, cancel) is not { } about)
        {
            return null;
        }

        var print = await db.PrintLines.AsNoTracking().SingleAsync(l => l.Order == about.Order && l.Line == about.Line, cancel);
        var runs = await (
            from made in db.RunPrints.AsNoTracking()
            join run in db.Runs on made.Run equals run.Number
            join printer in db.Printers on run.Printer equals printer.Code
            join lot in db.Lots on run.Lot equals lot.Code
            where made.Order == about.Order && made.Line == about.Line && run.EndedAt != null
            orderby run.Number descending
            select new { run.Number, run.EndedAt, Printer = printer.Name, Lot = lot }).ToListAsync(cancel);
        var lots = new List<Made>();
        foreach (var run in runs.DistinctBy(r => r.Lot.Code))
        {
            var bought = run.Lot;
            while (bought is { Supplier: null, CutFrom: { } from } && await db.Lots.AsNoTracking().SingleOrDefaultAsync(l => l.Code == from, cancel) is { } whole)
            {
                bought = whole; // an offcut came in the box it was cut from
            }

            lots.Add(new(run.Number, run.EndedAt!.Value, run.Printer, bought));
        }

        return new(
            about, print, await db.Papers.AsNoTracking().SingleAsync(p => p.Code == print.Paper, cancel), lots,
            await db.Suppliers.AsNoTracking().OrderBy(s => s.Name).ToListAsync(cancel),
            await db.OrderFacts.AsNoTracking().Where(f => f.Order == about.Order && f.Kind == FactKind.ClaimSent).OrderByDescending(f => f.Number).ToListAsync(cancel));
    }

    /// <param name="Run">The run that made it, or tried to.</param>
    /// <param name="Lot">As it was bought: of an offcut, the lot it was cut from.</param>
    public sealed record Made(int Run, DateTimeOffset At, string Printer, Lot Lot);

    /// <param name="Made">On which lots, the newest run first.</param>
    /// <param name="Sent">Claims of this order that were sent, the newest first.</param>
    public sealed record Page(Complaint Complaint, PrintLine Print, Paper Paper, IReadOnlyList<Made> Made, IReadOnlyList<Supplier> Suppliers, IReadOnlyList<OrderFact> Sent);
}
