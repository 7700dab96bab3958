using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Editions;
using Goodsheet.App.Storage;
using Goodsheet.Room.Money;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Money;

/// <summary>The money that lies on the shelf: value, how quickly it turns, what is dead, what was wasted, and a month's use.</summary>
public sealed class ShowStockMoney(RoomStore room, TimeProvider clock)
{
    /// <summary>Not used for so long, what lies here is dead. Common practice, no source.</summary>
    public const int DeadAfterDays = 180;

    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var today = clock.Today();
        var (papers, formats) = await NamesAsync(db, cancel);
        var moves = await db.CostedMovesAsync(clock, cancel);
        var items = moves.GroupBy(m => m.Item).Select(g => (IReadOnlyList<CostedMove>)[.. g])
            .Select(own => new Line(own[0].Item, papers[own[0].Item.Paper], formats[own[0].Item.Format].IsRoll, StockValue.Of(own), StockTurn.Of(own, today), own[0].Day))
            .Where(l => l.Value.OnHand > 0 || l.Turn.Used > 0)
            .OrderByDescending(l => l.Value.Fifo ?? 0).ThenBy(l => l.Paper, StringComparer.CurrentCulture).ToList();
        var first = today.AddDays(-StockTurn.Year);
        var waste = moves.Where(m => m.To.IsWaste && m.Day > first).GroupBy(m => (m.Item.Paper, m.To.Name)).Select(g => new Waste(
            papers[g.Key.Paper], Enum.TryParse<WasteCause>(g.Key.Name, ignoreCase: true, out var cause) ? cause : WasteCause.Other,
            (double)g.Sum(m => m.Quantity * formats[m.Item.Format].AreaOfOne), g.All(m => m.UnitCost is null) ? null : g.Sum(m => m.Quantity * (m.UnitCost ?? 0))))
            .OrderByDescending(w => w.Cost ?? 0).ThenByDescending(w => w.SquareMetres).ToList();
        var months = moves.Count == 0 ? [] : Months(moves[0].Day, today);
        return new(today, (await OrderCost.RatesAsync(db, today, cancel))?.Currency ?? "", items, waste, months);
    }

    /// <summary>What each item did in a month, as CSV (RFC 4180): amounts in sheets, or mm of a roll; the cost of what was used.</summary>
    public async Task<string> UsageAsync(DateOnly month, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var (first, next) = (new DateOnly(month.Year, month.Month, 1), new DateOnly(month.Year, month.Month, 1).AddMonths(1));
        var (papers, formats) = await NamesAsync(db, cancel);
        var moves = await db.CostedMovesAsync(clock, cancel);
        var csv = new StringBuilder("month,paper,format,unit,opening,received,good,tests,wasted,cut_up,sent_back,scrapped,counted,closing,cost_of_used\r\n");
        foreach (var item in moves.Where(m => m.Day < next).GroupBy(m => m.Item).OrderBy(g => papers[g.Key.Paper], StringComparer.Ordinal).ThenBy(g => g.Key.Format.Value, StringComparer.Ordinal))
        {
            var (opening, within) = (item.Where(m => m.Day < first).Sum(m => m.Change), item.Where(m => m.Day >= first).ToList());
            if (opening == 0 && within.Count == 0)
            {
                continue;
            }

            long To(Func<CostedMove, bool> which) => -within.Where(m => m.Change < 0 && which(m)).Sum(m => m.Change);
            var used = within.Where(StockTurn.IsUse).ToList();
            csv.AppendJoin(',',
                first.ToString("yyyy-MM", CultureInfo.InvariantCulture), ShowEditions.Quoted(papers[item.Key.Paper]), ShowEditions.Quoted(item.Key.Format.Value), formats[item.Key.Format].Unit,
                Text(opening), Text(within.Where(m => m.IsReceipt).Sum(m => m.Change)), Text(To(m => m.To == Account.Good)), Text(To(m => m.To == Account.Tests)), Text(To(m => m.To.IsWaste)),
                Text(To(m => m.To == Account.Trimmed)), Text(To(m => m.To == Account.Supplier)), Text(To(m => m.To == Account.Scrap)),
                Text(within.Where(m => m.From == Account.CountDifference || m.To == Account.CountDifference).Sum(m => m.Change)),
                Text(opening + within.Sum(m => m.Change)),
                used.Any(m => m.UnitCost is null) ? "" : Pricing.ToTheCent(used.Sum(m => -m.Change * m.UnitCost!.Value)).ToString("0.00", CultureInfo.InvariantCulture)).Append("\r\n");
        }

        return csv.ToString();
    }

    private static string Text(long amount) => amount.ToString(CultureInfo.InvariantCulture);

    private static async Task<(Dictionary<PaperCode, string> Papers, Dictionary<FormatCode, Format> Formats)> NamesAsync(RoomDb db, CancellationToken cancel) => (
        await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, p => p.Name, cancel), await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel));

    // The newest first, a year of them.
    private static List<DateOnly> Months(DateOnly first, DateOnly today) =>
        [.. Enumerable.Range(0, 13).Select(i => new DateOnly(today.Year, today.Month, 1).AddMonths(-i)).Where(m => m.AddMonths(1) > first)];

    /// <param name="Currency">Of the room's rates; empty when it has none.</param>
    /// <param name="Waste">Of the last year, by cause and paper.</param>
    public sealed record Page(DateOnly Today, string Currency, IReadOnlyList<Line> Items, IReadOnlyList<Waste> Waste, IReadOnlyList<DateOnly> Months)
    {
        public decimal Fifo => Items.Sum(i => i.Value.Fifo ?? 0);

        public decimal Average => Items.Sum(i => i.Value.Average ?? 0);

        public IEnumerable<Line> WithoutPrice => Items.Where(i => i.Value is { OnHand: > 0, Fifo: null });

        public IEnumerable<Line> Dead => Items.Where(i => i.Value.OnHand > 0 && (i.Turn.LastUsed ?? i.Since) < Today.AddDays(-DeadAfterDays));
    }

    /// <param name="Since">The day its first move was written.</param>
    public sealed record Line(ItemCode Item, string Paper, bool IsRoll, StockValue Value, StockTurn Turn, DateOnly Since);

    public sealed record Waste(string Paper, WasteCause Cause, double SquareMetres, decimal? Cost);
}
