using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Orders;

/// <summary>Orders in the book, and one of them whole.</summary>
public sealed class ShowOrders(RoomStore room)
{
    private const int Shown = 200;

    public async Task<IReadOnlyList<Line>> RunAsync(bool done = false, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await (
            from order in db.Orders.AsNoTracking()
            join client in db.Clients on order.Client equals client.Number
            where done == (order.State == OrderState.Done || order.State == OrderState.Cancelled)
            orderby order.Promised
            select new Line(order, client.Name, db.PrintLines.Where(l => l.Order == order.Number).ToList())).Take(Shown).ToListAsync(cancel);
    }

    public async Task<Page?> OneAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var order = await db.Orders.AsNoTracking().SingleOrDefaultAsync(o => o.Number == number, cancel);
        if (order is null)
        {
            return null;
        }

        var papers = await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, cancel);
        return new(
            order,
            await db.Clients.AsNoTracking().SingleAsync(c => c.Number == order.Client, cancel),
            await db.PrintLines.AsNoTracking().Where(l => l.Order == number).OrderBy(l => l.Line).ToListAsync(cancel),
            await db.Findings.AsNoTracking().Where(f => f.Order == number).OrderByDescending(f => f.Severity).ThenBy(f => f.Number).ToListAsync(cancel),
            papers,
            await db.RunPrints.AsNoTracking().Where(r => r.Order == number).Select(r => r.Run).Distinct().ToListAsync(cancel),
            await db.Work.AsNoTracking().Where(w => w.About.StartsWith($"Picture of print {number}/") && (w.State == WorkState.Asked || w.State == WorkState.Running))
                .Select(w => (Guid?)w.Id).FirstOrDefaultAsync(cancel));
    }

    public sealed record Line(Order Order, string Client, IReadOnlyList<PrintLine> Prints);

    /// <param name="Looking">The work that looks at the pixels just now.</param>
    public sealed record Page(
        Order Order, Client Client, IReadOnlyList<PrintLine> Prints, IReadOnlyList<Finding> Findings,
        IReadOnlyDictionary<PaperCode, Paper> Papers, IReadOnlyList<int> Runs, Guid? Looking);
}
