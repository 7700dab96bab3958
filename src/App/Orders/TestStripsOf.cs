using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Orders;

/// <summary>The last test strip of each of some prints.</summary>
internal static class TestStripsOf
{
    public static async Task<Dictionary<(int Order, int Line), TestStrip>> LastAsync(RoomDb db, IReadOnlyCollection<PrintLine> prints, CancellationToken cancel)
    {
        var orders = prints.Select(p => p.Order).Distinct().ToList();
        var strips = await db.TestStrips.AsNoTracking().Where(s => orders.Contains(s.Order)).ToListAsync(cancel);
        return strips.GroupBy(s => (s.Order, s.Line)).ToDictionary(g => g.Key, g => g.MaxBy(s => s.Number)!);
    }
}
