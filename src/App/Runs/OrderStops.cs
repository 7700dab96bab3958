using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Runs;

/// <summary>The orders of a run that are on hold or not approved, and that nobody decided to print all the same.</summary>
internal static class OrderStops
{
    public static async Task<IReadOnlyList<(int Order, Refusal Stop)>> OfAsync(RoomDb db, int run, CancellationToken cancel)
    {
        var orders = await db.Orders.AsNoTracking().Where(o => db.RunPrints.Any(p => p.Run == run && p.Order == o.Number)).OrderBy(o => o.Number).ToListAsync(cancel);
        var what = What(run);
        var about = orders.Select(o => About(o.Number)).ToList();
        var decided = await db.Decisions.AsNoTracking().Where(d => d.What == what && about.Contains(d.About)).Select(d => d.About).ToListAsync(cancel);
        return [.. orders.Where(o => !decided.Contains(About(o.Number))).Select(o => (o.Number, OrderRules.Stop(o))).Where(s => s.Item2 is not null).Select(s => (s.Number, s.Item2!))];
    }

    public static Decision Decision(int run, int order, string why, DateTimeOffset at, PersonName by) => new()
    {
        Id = Guid.CreateVersion7(at),
        About = About(order),
        What = What(run),
        Why = why,
        At = at,
        By = by,
    };

    private static string About(int order) => $"order {order}";

    private static string What(int run) => $"begin run {run}";
}
