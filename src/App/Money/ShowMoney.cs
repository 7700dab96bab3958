using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Editions;
using Goodsheet.App.Storage;
using Goodsheet.Room.Money;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Money;

/// <summary>The room's rates and prices, and what work that is done has left over.</summary>
public sealed class ShowMoney(RoomStore room, TimeProvider clock)
{
    private const int Shown = 500;

    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var day = clock.Today();
        var papers = await db.Papers.AsNoTracking().OrderBy(p => p.Name).ToListAsync(cancel);
        var orders = await DoneAsync(db, cancel);
        return new(
            await OrderCost.RatesAsync(db, day, cancel), papers,
            (await db.PaperPrices.AsNoTracking().ToListAsync(cancel)).GroupBy(p => p.Paper).ToDictionary(g => g.Key, g => g.MaxBy(p => p.From)!.PerSquareMetre),
            await db.Clients.AsNoTracking().OrderBy(c => c.Name).ToListAsync(cancel),
            await db.ClientPrices.AsNoTracking().OrderByDescending(p => p.From).ToListAsync(cancel),
            orders, By(orders, o => o.Paper), By(orders, o => o.Client),
            await db.Orders.CountAsync(o => o.State == OrderState.Done && !db.OrderQuotes.Any(q => q.Order == o.Number), cancel));
    }

    /// <summary>Orders that are done, for bookkeeping, as CSV (RFC 4180).</summary>
    public async Task<string> CsvAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var csv = new StringBuilder("order,client,paper,currency,net,tax,cost,left\r\n");
        foreach (var o in await DoneAsync(db, cancel))
        {
            csv.AppendJoin(',', ((string[])[$"{o.Order}", o.Client, o.Paper, o.Currency, Cents(o.Net), Cents(o.Tax), Cents(o.Cost), Cents(o.Net - o.Cost)]).Select(Cell)).Append("\r\n");
        }

        return csv.ToString();
    }

    private static string Cents(decimal amount) => amount.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Cell(string text) => decimal.TryParse(text, CultureInfo.InvariantCulture, out _) ? text : ShowEditions.Quoted(text);

    private static List<Profit> By(IReadOnlyList<OrderDone> orders, Func<OrderDone, string> what) =>
        [.. orders.GroupBy(what).Select(g => new Profit(g.Key, g.Sum(o => o.Net), g.Sum(o => o.Cost))).OrderByDescending(p => p.Left)];

    // What a run truly took corrects the quotation's cost: prints wasted, and minutes where they were kept.
    internal static async Task<IReadOnlyList<OrderDone>> DoneAsync(RoomDb db, CancellationToken cancel)
    {
        var done = await (
            from order in db.Orders.AsNoTracking()
            join client in db.Clients on order.Client equals client.Number
            where order.State == OrderState.Done && db.OrderQuotes.Any(q => q.Order == order.Number)
            orderby order.Number descending
            select new { order.Number, Client = client.Name, Lines = db.PrintLines.Where(l => l.Order == order.Number).ToList(), Quotes = db.OrderQuotes.Where(q => q.Order == order.Number).ToList() }).Take(Shown).ToListAsync(cancel);
        var names = await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, p => p.Name, cancel);
        return [.. done.Select(d =>
        {
            var quote = d.Quotes.MaxBy(q => q.Number)!;
            var good = Math.Max(1, d.Lines.Sum(l => l.Good));
            return new OrderDone(d.Number, d.Client, names[d.Lines[0].Paper], quote.Currency, quote.Net, quote.Tax, Pricing.ToTheCent(quote.Cost * (good + d.Lines.Sum(l => l.Wasted)) / good));
        })];
    }

    public sealed record OrderDone(int Order, string Client, string Paper, string Currency, decimal Net, decimal Tax, decimal Cost);

    /// <param name="Orders">Done and quoted, the newest first.</param>
    /// <param name="NotQuoted">Orders that are done and were never quoted: nothing is known of what they brought.</param>
    public sealed record Page(
        Rates? Rates, IReadOnlyList<Paper> Papers, IReadOnlyDictionary<PaperCode, decimal> PaperPrices, IReadOnlyList<Client> Clients, IReadOnlyList<ClientPrice> ClientPrices,
        IReadOnlyList<OrderDone> Orders, IReadOnlyList<Profit> ByPaper, IReadOnlyList<Profit> ByClient, int NotQuoted);
}
