using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Buying;

/// <summary>What went off the shelf day by day, from the ledger: drawn for prints, tests and cutting, or wasted, less what was brought back.</summary>
internal static class DailyUse
{
    /// <summary>Half a year: long enough for a rate, short enough to follow what changes.</summary>
    public const int Days = RoomRun.RateDays;

    /// <summary>A new item's rate is not judged on less.</summary>
    private const int LeastDays = 28;

    /// <summary>For each item that moved, sheets or mm for each of the last days, the oldest first, from its first delivery on.</summary>
    public static async Task<IReadOnlyDictionary<ItemCode, double[]>> DailyUseAsync(
        this RoomDb db, TimeProvider clock, int days, CancellationToken cancel)
    {
        var today = clock.Today();
        var since = clock.GetUtcNow().AddDays(-days);
        var moves = await (
            from move in db.Moves.AsNoTracking()
            join lot in db.Lots on move.Lot equals lot.Code
            where move.At >= since && (move.From == Account.Shelf || move.To == Account.Shelf)
            select new { lot.Paper, lot.Format, move.At, move.From, move.To, move.Quantity }).ToListAsync(cancel);
        var firstSeen = await db.Lots.AsNoTracking().GroupBy(l => new { l.Paper, l.Format })
            .Select(g => new { g.Key.Paper, g.Key.Format, First = g.Min(l => l.Received) }).ToListAsync(cancel);
        var all = firstSeen.ToDictionary(
            f => new ItemCode(f.Paper, f.Format), f => new double[Math.Clamp(today.DayNumber - f.First.DayNumber, Math.Min(LeastDays, days), days)]);
        foreach (var move in moves)
        {
            var ago = today.DayNumber - DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(move.At, clock.LocalTimeZone).DateTime).DayNumber;
            var use = all[new(move.Paper, move.Format)];
            if (ago >= 1 && ago <= use.Length)
            {
                use[^ago] += IsUse(move.To) ? move.Quantity : IsUse(move.From) ? -move.Quantity : 0;
            }
        }

        return all;
    }

    // What was wanted: not what was sold back, miscounted or thrown away for its age.
    private static bool IsUse(Account account) =>
        account.IsPrinter || account.IsWaste || account == Account.Tests || account == Account.Good;
}
