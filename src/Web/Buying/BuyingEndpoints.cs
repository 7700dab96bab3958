using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Buying;
using Goodsheet.App.Documents;

namespace Goodsheet.Web.Buying;

/// <summary>Orders and their days as files: what a page cannot give.</summary>
public static class BuyingEndpoints
{
    public static void MapBuying(this IEndpointRouteBuilder app)
    {
        app.MapGet("/buying/orders/{number:int}/order.csv", CsvAsync);
        app.MapGet("/buying/orders/{number:int}/order.pdf", PdfAsync);
        app.MapGet("/buying/calendar.ics", CalendarAsync);
    }

    private static async Task<Results<FileContentHttpResult, NotFound>> CsvAsync(int number, ShowPurchase show, CancellationToken cancel) =>
        await show.RunAsync(number, cancel) is { } page
            ? TypedResults.File(Encoding.UTF8.GetBytes(PurchaseText.Csv(page)), "text/csv; charset=utf-8", $"order-{number}.csv")
            : TypedResults.NotFound();

    private static async Task<Results<FileContentHttpResult, NotFound>> PdfAsync(int number, ShowPurchase show, TimeProvider clock, CancellationToken cancel) =>
        await show.RunAsync(number, cancel) is { } page && PurchasePages.Draw(page, clock.LocalTimeZone) is { } made
            ? TypedResults.File(made.Pdf, "application/pdf", made.FileName)
            : TypedResults.NotFound();

    private static async Task<FileContentHttpResult> CalendarAsync(BuyingCalendar calendar, CancellationToken cancel) =>
        TypedResults.File(Encoding.UTF8.GetBytes(await calendar.RunAsync(cancel)), "text/calendar; charset=utf-8", "goodsheet.ics");
}
