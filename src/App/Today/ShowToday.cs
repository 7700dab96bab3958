using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Buying;
using Goodsheet.App.Control;
using Goodsheet.App.Orders;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Care;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Today;

/// <summary>What to print, check, buy and put away now. It asks; it owns nothing.</summary>
public sealed class ShowToday(RoomStore room, TimeProvider clock)
{
    private const int SoonDays = 60;

    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var now = clock.GetUtcNow();
        var today = clock.Today();
        var runs = await (
            from run in db.Runs.AsNoTracking()
            join paper in db.Papers on run.Paper equals paper.Code
            join printer in db.Printers on run.Printer equals printer.Code
            where run.State == RunState.Planned || run.State == RunState.Printing
            orderby run.Number
            select new RunLine(run, paper.Name, printer.Name, db.RunPrints.Where(p => p.Run == run.Number).Sum(p => p.Copies))).ToListAsync(cancel);
        var orders = await (
            from order in db.Orders.AsNoTracking()
            join client in db.Clients on order.Client equals client.Number
            where (order.State == OrderState.Approved || order.State == OrderState.Quoted || order.State == OrderState.OnHold) && !db.RunPrints.Any(r => r.Order == order.Number)
            orderby order.Promised
            select new OrderLine(order, client.Name)).ToListAsync(cancel);
        var strips = await StripsAsync(db, orders, cancel);
        var checks = await db.ChecksAsync(now, cancel);
        var lots = await ShelfLines.Left(db).ToListAsync(cancel);
        var items = await (
            from item in db.Items.AsNoTracking()
            join paper in db.Papers on item.Paper equals paper.Code
            join format in db.Formats on item.Format equals format.Code
            where item.Reserve > 0
            select new { Item = item, Paper = paper.Name, Format = format }).ToListAsync(cancel);
        var low = items.Select(i => new LowLine(
                i.Item, i.Paper, i.Format.IsRoll, lots.Where(l => l.Paper == i.Item.Paper && l.Format == i.Item.Format && l.IsForClients(today)).Sum(l => l.OnShelf)))
            .Where(l => l.Left < l.Item.Reserve).ToList();
        var advice = await db.AdviceAsync(clock, cancel);
        var buy = advice.Lines.Where(l => l.Reorder.Packs > 0).GroupBy(l => l.Sending.Supplier.Code)
            .Select(g => new BuyFrom(g.First().Sending.Supplier, g.First().Reorder.Promise, [.. g.Select(BuyLine.Of)])).OrderBy(b => b.Promise.CutOff).ToList();
        low = [.. low.Where(l => advice.Lines.All(a => a.Need.Item.Code != l.Item.Code))];
        var care = (await db.CareTasks.AsNoTracking().OrderBy(t => t.Number).ToListAsync(cancel)).Where(t => t.IsDue(today, clock.LocalTimeZone)).OrderBy(t => t.At ?? TimeOnly.MaxValue).ToList();
        return new(now, today, runs, orders, strips, checks, low, buy, [.. lots.Where(l => l.GoodUntil < today.AddDays(SoonDays)).OrderBy(l => l.GoodUntil)],
            care, await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, p => p.Name, cancel));
    }

    // Of prints that wait, on a run or not: the strip comes before them.
    private static async Task<IReadOnlyList<AwaitedStrip>> StripsAsync(RoomDb db, IReadOnlyList<OrderLine> orders, CancellationToken cancel)
    {
        var waiting = orders.Where(o => o.Order.State is OrderState.Approved).Select(o => o.Order.Number).ToList();
        var prints = await db.PrintLines.AsNoTracking()
            .Where(l => l.StripFirst && (waiting.Contains(l.Order)
                || db.RunPrints.Any(p => p.Order == l.Order && p.Line == l.Line && db.Runs.Any(r => r.Number == p.Run && r.State == RunState.Planned))))
            .OrderBy(l => l.Order).ThenBy(l => l.Line).ToListAsync(cancel);
        var last = await TestStripsOf.LastAsync(db, prints, cancel);
        return [.. prints.Select(l => AwaitedStrip.Of(l, last.GetValueOrDefault((l.Order, l.Line)))).Where(s => s.Wait is not StripWait.Nothing)];
    }

    public sealed record Page(
        DateTimeOffset Now, DateOnly Day, IReadOnlyList<RunLine> Runs, IReadOnlyList<OrderLine> Orders, IReadOnlyList<AwaitedStrip> Strips,
        IReadOnlyList<StripsDue.Line> Checks,
        IReadOnlyList<LowLine> Low, IReadOnlyList<BuyFrom> Buy, IReadOnlyList<ShelfLines.Line> GoingOutOfDate,
        IReadOnlyList<CareTask> Care, IReadOnlyDictionary<PaperCode, string> Names);

    public sealed record RunLine(Run Run, string Paper, string Printer, int Prints);

    public sealed record OrderLine(Order Order, string Client);

    /// <summary>Under its reserve, and the room does not know where it is bought.</summary>
    public sealed record LowLine(Item Item, string Paper, bool IsRoll, long Left);

    /// <summary>What has to go to one supplier before its cut-off.</summary>
    public sealed record BuyFrom(Supplier Supplier, Promise Promise, IReadOnlyList<BuyLine> Lines);
}
