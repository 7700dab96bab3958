using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>The clocks of the room's suppliers: zone, week, public holidays and own closures together.</summary>
internal static class SupplierClocks
{
    private const int YearsAhead = 3;

    /// <summary>By supplier, each with the ways it sends, the quickest first.</summary>
    public static async Task<IReadOnlyDictionary<SupplierCode, Sending>> ClocksAsync(this RoomDb db, DateOnly today, CancellationToken cancel)
    {
        var suppliers = await db.Suppliers.AsNoTracking().ToListAsync(cancel);
        var ways = (await db.Dispatches.AsNoTracking().ToListAsync(cancel)).ToLookup(w => w.Supplier);
        var closures = (await db.Closures.AsNoTracking().Where(c => c.Day >= today.AddYears(-1)).ToListAsync(cancel)).ToLookup(c => c.Supplier);
        var late = (await db.Deliveries.AsNoTracking().Select(d => new { d.Supplier, d.DaysLate }).ToListAsync(cancel)).ToLookup(d => d.Supplier, d => d.DaysLate);
        int[] all = [.. late.SelectMany(l => l)];
        return suppliers.ToDictionary(s => s.Code, s => new Sending(
            s, Clock(s, closures[s.Code].Select(c => c.Day), today),
            [.. ways[s.Code].OrderBy(w => w.LeadDays).ThenByDescending(w => w.CutOff).ThenBy(w => w.Name, StringComparer.Ordinal)],
            Lateness.Of([.. late[s.Code]], all)));
    }

    private static SupplierClock Clock(Supplier supplier, IEnumerable<DateOnly> closures, DateOnly today)
    {
        var closed = PublicHolidays.Of(supplier.Holidays, today.Year - 1, today.Year + YearsAhead).Concat(closures).ToHashSet();
        return new(TimeZoneInfo.FindSystemTimeZoneById(supplier.TimeZone), new(supplier.WorkingDays, closed), new(supplier.DeliveryDays, closed));
    }
}

/// <summary>A supplier with its clock, the ways it sends, and how late it is wont to be.</summary>
public sealed record Sending(Supplier Supplier, SupplierClock Clock, IReadOnlyList<Dispatch> Ways, Lateness Late)
{
    /// <summary>The way taken unless another is chosen: the quickest.</summary>
    public Dispatch Usual => Ways[0];

    public Promise Promise(DateTimeOffset now) => Clock.Promise(Usual, now);
}
