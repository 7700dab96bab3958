using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Money;
using Goodsheet.App.Storage;
using Goodsheet.Room.Money;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Papers;

/// <summary>What the books of the past year say of each paper.</summary>
internal static class LineUpBooks
{
    public static async Task<Dictionary<PaperCode, PaperYear>> OfYearAsync(this RoomDb db, TimeProvider clock, CancellationToken cancel)
    {
        var since = clock.Today().AddDays(-StockTurn.Year);
        var formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel);
        var papers = await db.Papers.AsNoTracking().Select(p => new { p.Name, p.Code }).ToListAsync(cancel);
        var names = papers.GroupBy(p => p.Name).Where(g => g.Count() == 1).ToDictionary(g => g.Key, g => g.First().Code); // orders that are done name their paper
        var left = (await ShowMoney.DoneAsync(db, cancel)).GroupBy(o => o.Paper).Where(g => names.ContainsKey(g.Key))
            .ToDictionary(g => names[g.Key], g => g.Sum(o => o.Net - o.Cost));
        var moves = (await db.CostedMovesAsync(clock, cancel)).GroupBy(m => m.Item.Paper).ToDictionary(g => g.Key, g => g.ToList());
        return papers.Select(p => p.Code).ToDictionary(code => code, code =>
        {
            decimal Area(IEnumerable<CostedMove> of) => of.Sum(m => Math.Abs(m.Change) * formats[m.Item.Format].AreaOfOne);
            var own = moves.GetValueOrDefault(code) ?? [];
            var year = own.Where(m => m.Day > since && m.Change < 0).ToList();
            var (good, wasted, used) = (Area(year.Where(m => m.To == Room.Shelf.Account.Good)), Area(year.Where(m => m.To.IsWaste)), Area(year.Where(StockTurn.IsUse)));
            var days = own.Count == 0 ? 1 : Math.Clamp(clock.Today().DayNumber - own.Min(m => m.Day).DayNumber + 1, 1, StockTurn.Year);
            var here = own.Sum(m => m.Change * formats[m.Item.Format].AreaOfOne);
            return new PaperYear(
                good + wasted > 0 ? (double)(wasted / (good + wasted)) : null, used > 0 ? (double)(here / used) * days : null, left.TryGetValue(code, out var money) ? money : null);
        });
    }
}

/// <summary>A paper's past year in the books.</summary>
/// <param name="Waste">The part of what was printed that became waste, 0 to 1; none where nothing was printed.</param>
/// <param name="StockDays">How many days what lies here lasts at the year's use; none where nothing was used.</param>
/// <param name="Left">What its orders that are done left over, in the room's currency; none without quoted orders.</param>
public sealed record PaperYear(double? Waste, double? StockDays, decimal? Left);
