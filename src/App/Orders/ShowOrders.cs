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
        // Two questions: one that compares with the parameter comes back empty from SQLite.
        var book = done
            ? db.Orders.AsNoTracking().Where(o => o.State == OrderState.Done || o.State == OrderState.Cancelled)
            : db.Orders.AsNoTracking().Where(o => o.State != OrderState.Done && o.State != OrderState.Cancelled);
        return await (
            from order in book
            join client in db.Clients on order.Client equals client.Number
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
        var prints = await db.PrintLines.AsNoTracking().Where(l => l.Order == number).OrderBy(l => l.Line).ToListAsync(cancel);
        var findings = await db.Findings.AsNoTracking().Where(f => f.Order == number).OrderByDescending(f => f.Severity).ThenBy(f => f.Number).ToListAsync(cancel);
        var notHeld = new Dictionary<int, int>();
        foreach (var line in prints.Where(p => findings.Any(f => f.Line == p.Line && f.Kind == PrintCheck.NotHeld)))
        {
            if (await PreparePrint.ProfileForAsync(db, line.Paper, cancel) is var (profile, _))
            {
                notHeld[line.Line] = profile.Number;
            }
        }

        return new(
            order,
            await db.Clients.AsNoTracking().SingleAsync(c => c.Number == order.Client, cancel),
            prints,
            findings,
            papers,
            await db.RunPrints.AsNoTracking().Where(r => r.Order == number).Select(r => r.Run).Distinct().ToListAsync(cancel),
            await db.Work.AsNoTracking().Where(w => w.About.StartsWith($"Picture of print {number}/") && (w.State == WorkState.Asked || w.State == WorkState.Running))
                .Select(w => (Guid?)w.Id).FirstOrDefaultAsync(cancel),
            notHeld,
            await db.OrderFacts.AsNoTracking().Where(f => f.Order == number).OrderByDescending(f => f.Number).ToListAsync(cancel),
            await NoProfileAsync(db, prints, cancel));
    }

    private static async Task<IReadOnlyList<int>> NoProfileAsync(RoomDb db, IEnumerable<PrintLine> prints, CancellationToken cancel)
    {
        var lines = new List<int>();
        foreach (var print in prints.Where(p => p.PreparedHash is null))
        {
            if (await PreparePrint.ProfileOfAsync(db, print, cancel) is null)
            {
                lines.Add(print.Line);
            }
        }

        return lines;
    }

    /// <summary>Whether a finding says that no paper on the shelf takes the print whole.</summary>
    public static bool IsTooLarge(Finding finding) => finding.Kind == PrintCheck.TooLarge;

    public sealed record Line(Order Order, string Client, IReadOnlyList<PrintLine> Prints);

    /// <param name="NoProfile">Lines whose file cannot be prepared, since their paper has no profile to print with.</param>
    /// <param name="Looking">The work that looks at the pixels just now.</param>
    /// <param name="Facts">What happened to it, the latest first.</param>
    /// <param name="NotHeld">By line, the profile whose paper does not hold all colours of the picture.</param>
    public sealed record Page(
        Order Order, Client Client, IReadOnlyList<PrintLine> Prints, IReadOnlyList<Finding> Findings,
        IReadOnlyDictionary<PaperCode, Paper> Papers, IReadOnlyList<int> Runs, Guid? Looking,
        IReadOnlyDictionary<int, int> NotHeld, IReadOnlyList<OrderFact> Facts, IReadOnlyList<int> NoProfile);
}
