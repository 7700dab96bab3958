using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Layout;

/// <summary>Prints that wait, are prepared, and may share a run: same paper, and promised near enough or with time to go along.</summary>
internal sealed record WaitingWork(PrintLine Line, Order Order, int Copies)
{
    public static async Task<List<WaitingWork>> ForAsync(RoomDb db, OpenLayout open, TimeProvider clock, CancellationToken cancel)
    {
        var run = open.Run;
        PaperCode paper = run.Paper;
        var zone = await db.Settings.AsNoTracking().Select(s => s.TimeZone).SingleOrDefaultAsync(cancel);
        var promised = await (
            from print in db.RunPrints.AsNoTracking()
            join line in db.PrintLines on new { print.Order, print.Line } equals new { line.Order, line.Line }
            join order in db.Orders on print.Order equals order.Number
            where print.Run == run.Number && !line.GoesAlong
            select order.Promised).ToListAsync(cancel);
        var rows = await (
            from line in db.PrintLines
            join order in db.Orders on line.Order equals order.Number
            where line.Paper == paper && line.PreparedHash != null && order.State == OrderState.Approved
            orderby order.Promised, line.Order, line.Line
            select new { Line = line, Order = order }).ToListAsync(cancel);
        var busy = await RunPaper.OpenCopiesAsync(db, null, cancel);
        var on = TimeZoneInfo.TryFindSystemTimeZoneById(zone ?? "UTC", out var found) ? found : clock.LocalTimeZone;
        return
        [
            .. rows.Where(r => OrderRules.Stop(r.Order) is null && (r.Line.GoesAlong || promised.TrueForAll(p => open.Paper.Settings.MayShare(Day(p), Day(r.Order.Promised)))))
                .Select(r => new WaitingWork(r.Line, r.Order, r.Line.ToPrint - busy.GetValueOrDefault((r.Line.Order, r.Line.Line))))
                .Where(w => w.Copies > 0),
        ];

        DateOnly Day(DateTimeOffset at) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(at, on).DateTime);
    }
}
