using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Editions;
using Goodsheet.App.Money;
using Goodsheet.App.Orders;

namespace Goodsheet.Web.Money;

/// <summary>What leaves the room as a file: quotation, bookkeeping, the register for a gallery.</summary>
public static class MoneyEndpoints
{
    public static void MapMoney(this IEndpointRouteBuilder app)
    {
        app.MapGet("/money/orders.csv", async (ShowMoney show, CancellationToken cancel) =>
            File(await show.CsvAsync(cancel), "text/csv", "orders.csv"));
        app.MapGet("/money/invoices.csv", async (ShowFinishing show, CancellationToken cancel) =>
            File(await show.InvoicesAsync(cancel), "text/csv", "invoices.csv"));
        app.MapGet("/money/stock/usage.csv", async (string month, ShowStockMoney show, CancellationToken cancel) =>
            DateOnly.TryParseExact(month, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var first)
                ? File(await show.UsageAsync(first, cancel), "text/csv", $"usage-{first.ToString("yyyy-MM", CultureInfo.InvariantCulture)}.csv") : Results.NotFound());
        app.MapGet("/editions/{number:int}/register.csv", async (int number, ShowEditions show, CancellationToken cancel) =>
            await show.CsvAsync(number, cancel) is { } csv ? File(csv, "text/csv", $"edition-{number}.csv") : Results.NotFound());
        app.MapGet("/orders/{number:int}/quotation.txt", async (int number, QuoteOrder quote, CancellationToken cancel) =>
            await quote.ShowAsync(number, cancel) is { Granted: true } outcome ? File(outcome.Value.Text, "text/plain", $"quotation-{number}.txt") : Results.NotFound());
    }

    private static IResult File(string text, string type, string name) =>
        Results.File(Encoding.UTF8.GetBytes(text), $"{type}; charset=utf-8", name);
}
