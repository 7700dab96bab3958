using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Editions;
using Goodsheet.App.Storage;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Orders;

/// <summary>How an order is finished and handed out, what came back, and what is to be invoiced.</summary>
public sealed class ShowFinishing(RoomStore room)
{
    public async Task<Page?> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        if (await db.Orders.AsNoTracking().SingleOrDefaultAsync(o => o.Number == number, cancel) is not { } order)
        {
            return null;
        }

        return new(
            order,
            await db.Clients.AsNoTracking().SingleAsync(c => c.Number == order.Client, cancel),
            await db.PrintLines.AsNoTracking().Where(l => l.Order == number).OrderBy(l => l.Line).ToListAsync(cancel),
            await db.FinishSteps.AsNoTracking().Where(s => s.Order == number).OrderBy(s => s.Number).ToListAsync(cancel),
            await db.Complaints.AsNoTracking().Where(c => c.Order == number).OrderByDescending(c => c.Number).ToListAsync(cancel),
            await MadeAsync(db, number, cancel));
    }

    /// <summary>When the prints of an order were made, line by line.</summary>
    internal static async Task<IReadOnlyList<DryDown.Made>> MadeAsync(RoomDb db, int order, CancellationToken cancel)
    {
        var lines = await (
            from line in db.PrintLines.AsNoTracking()
            join paper in db.Papers on line.Paper equals paper.Code
            where line.Order == order
            select new { Line = line, paper.DryingHours }).ToListAsync(cancel);
        var ends = await (
            from print in db.RunPrints.AsNoTracking()
            join run in db.Runs on print.Run equals run.Number
            where print.Order == order && print.Good > 0
            select new { print.Line, run.EndedAt }).ToListAsync(cancel);
        return [.. lines.Select(l => new DryDown.Made(ends.Where(e => e.Line == l.Line.Line).Max(e => e.EndedAt), l.DryingHours, l.Line.ToPrint))];
    }

    /// <summary>What went out to clients, with the quotation that was kept for it, as CSV (RFC 4180) for bookkeeping. A remake that the room or a supplier pays asks nothing.</summary>
    public async Task<string> InvoicesAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var orders = await (
            from order in db.Orders.AsNoTracking()
            join client in db.Clients on order.Client equals client.Number
            where order.OutAt != null
            orderby order.Number
            select new { Order = order, client.Name, Quote = db.OrderQuotes.Where(q => q.Order == order.Number).OrderByDescending(q => q.Number).FirstOrDefault() }).ToListAsync(cancel);
        var payers = await db.Complaints.AsNoTracking().Where(c => c.Remake != null).ToDictionaryAsync(c => c.Remake!.Value, c => c.Pays, cancel);
        var csv = new StringBuilder("order,client,reference,out,currency,net,tax,gross,deposit,to_pay,note\r\n");
        foreach (var line in orders)
        {
            var free = payers.TryGetValue(line.Order.Number, out var pays) && pays is not WhoPays.Client;
            var (net, tax) = free ? (0, 0) : (line.Quote?.Net ?? 0, line.Quote?.Tax ?? 0);
            var note = free ? $"remake of {line.Order.RemakeOf}, {NoteComplaint.Pays(pays).ToLowerInvariant()} pays" : line.Quote is null ? "no quotation was kept" : "";
            csv.AppendJoin(',', ((string[])
            [
                line.Order.Number.ToString(CultureInfo.InvariantCulture), line.Name, line.Order.Reference, line.Order.OutAt!.Value.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), line.Quote?.Currency ?? "",
                Money(net), Money(tax), Money(net + tax), Money(line.Order.Deposit), Money(net + tax - line.Order.Deposit), note,
            ]).Select(Cell)).Append("\r\n");
        }

        return csv.ToString();
    }

    // A sum that is less than nothing begins with a minus and is none the less a number.
    private static string Cell(string text) => decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out _) ? text : ShowEditions.Quoted(text);

    private static string Money(decimal sum) => sum.ToString("0.00", CultureInfo.InvariantCulture);

    public sealed record Page(Order Order, Client Client, IReadOnlyList<PrintLine> Prints, IReadOnlyList<FinishStep> Steps, IReadOnlyList<Complaint> Complaints, IReadOnlyList<DryDown.Made> Made);
}
