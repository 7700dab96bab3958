using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Money;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Money;

/// <summary>Prices an order by the room's rates of today: shown, or kept as a quotation.</summary>
public sealed class QuoteOrder(RoomStore room, TimeProvider clock)
{
    /// <summary>Keeps the quotation. The same command again keeps it once.</summary>
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, clock.GetUtcNow()), request.ToString(), cancel);
        if (!before.Granted)
        {
            return before.Refusal;
        }

        var reckoned = await ReckonAsync(db, request.Order, cancel);
        if (reckoned.Granted && !before.Value)
        {
            var done = reckoned.Value;
            db.OrderQuotes.Add(new()
            {
                Order = request.Order,
                Number = (await db.OrderQuotes.Where(q => q.Order == request.Order).MaxAsync(q => (int?)q.Number, cancel) ?? 0) + 1,
                At = clock.GetUtcNow(),
                By = request.By,
                Currency = done.Currency,
                Cost = Pricing.ToTheCent(done.Cost),
                Net = done.Quote.Net,
                Tax = done.Quote.Tax,
                Text = done.Text,
            });
        }

        return reckoned.Granted ? reckoned.Value with { Kept = true } : reckoned.Refusal;
    }, cancel);

    public async Task<Outcome<Done>> ShowAsync(int order, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await ReckonAsync(db, order, cancel);
    }

    private async Task<Outcome<Done>> ReckonAsync(RoomDb db, int number, CancellationToken cancel)
    {
        var day = clock.Today();
        var order = await db.Orders.AsNoTracking().SingleOrDefaultAsync(o => o.Number == number, cancel);
        if (order is null)
        {
            return new NoSuchOrder(number);
        }

        if (await OrderCost.RatesAsync(db, day, cancel) is not { } rates)
        {
            return new NoRates();
        }

        var prints = await db.PrintLines.AsNoTracking().Where(l => l.Order == number).OrderBy(l => l.Line).ToListAsync(cancel);
        var costs = await OrderCost.OfAsync(db, prints, rates, day, cancel);
        if (!costs.Granted)
        {
            return costs.Refusal;
        }

        var agreed = (await db.ClientPrices.AsNoTracking().Where(p => p.Client == order.Client && p.From <= day).ToListAsync(cancel))
            .GroupBy(p => p.Paper).ToDictionary(g => g.Key, g => g.MaxBy(p => p.From)!.PerSquareMetre);
        var quote = Quote.Of(
            [.. costs.Value.Select(c => new Quote.Priced(
                string.Create(CultureInfo.CurrentCulture, $"{c.Print.Title}, {c.Print.Width.Millimetres:0.#} × {c.Print.Height.Millimetres:0.#} mm on {c.Paper}"), c.Print.Copies, c.Sheet.Total,
                agreed.TryGetValue(c.Print.Paper, out var own) ? Pricing.RoundUp(own * c.Area / c.Print.Copies, rates.RoundUpTo) : null))], rates);
        if (!quote.Granted)
        {
            return quote.Refusal;
        }

        var client = await db.Clients.AsNoTracking().SingleAsync(c => c.Number == order.Client, cancel);
        var settings = await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
        return new Done(quote.Value, rates.Currency, costs.Value.Sum(c => c.Sheet.Total), [.. costs.Value.Select(c => new Sheet(c.Print.Title, c.Sheet))],
            TextOf(quote.Value, rates.Currency, number, client.Name, settings.Name, day), await db.OrderQuotes.AnyAsync(q => q.Order == number, cancel));
    }

    private static string TextOf(Quote quote, string currency, int order, string client, string room, DateOnly day)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.CurrentCulture, $"Quotation for order {order}\n{room}, {day:d MMMM yyyy}\nFor {client}\n\n");
        foreach (var line in quote.Lines)
        {
            text.Append(CultureInfo.CurrentCulture, $"{line.Copies} × {line.What}, {line.Each:0.00} each{(line.OffPercent > 0 ? $", {line.OffPercent:0.#} % off" : "")}: {line.Net:0.00} {currency}\n");
        }

        text.Append(CultureInfo.CurrentCulture, $"\nNet {quote.Net:0.00} {currency}\n");
        if (quote.TaxName.Length > 0)
        {
            text.Append(CultureInfo.CurrentCulture, $"{quote.TaxName} {quote.TaxPercent:0.##} %: {quote.Tax:0.00} {currency}\n");
        }

        return text.Append(CultureInfo.CurrentCulture, $"To pay {quote.ToPay:0.00} {currency}\n").ToString();
    }

    public sealed record Request(CommandId Command, PersonName By, int Order);

    public sealed record Sheet(string Title, CostSheet Costs);

    /// <param name="Kept">Whether one of this order is kept, which can then be sent as a document.</param>
    public sealed record Done(Quote Quote, string Currency, decimal Cost, IReadOnlyList<Sheet> Sheets, string Text, bool Kept);

    public sealed record NoSuchOrder(int Order) : Refusal($"There is no order {Order}.");
}
