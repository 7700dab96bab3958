using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Documents;
using Goodsheet.App.Orders;
using Goodsheet.Room;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Web.Documents;

/// <summary>Documents to print: labels, run cards, and what goes to a client.</summary>
public static class DocumentEndpoints
{
    public static void MapDocuments(this IEndpointRouteBuilder app)
    {
        app.MapGet("/shelf/lots/{code}/label.pdf", LabelAsync);
        app.MapGet("/shelf/labels.pdf", LabelsAsync);
        app.MapGet("/runs/{number:int}/card.pdf", CardAsync);
        app.MapGet("/orders/{number:int}/quotation.pdf", async (int number, OrderPapers papers, CancellationToken cancel) =>
            Send(await papers.RunAsync(new(number, OrderPapers.Kind.Quotation), cancel)));
        app.MapGet("/orders/{number:int}/delivery-note.pdf", async (int number, OrderPapers papers, CancellationToken cancel) =>
            Send(await papers.RunAsync(new(number, OrderPapers.Kind.DeliveryNote), cancel)));
        app.MapGet("/orders/complaints/{number:int}/photograph-{which:int}.jpg", async (int number, int which, ShowPhotograph show, CancellationToken cancel) =>
            await show.RunAsync(number, which, cancel) is { } jpeg ? Results.File(jpeg, "image/jpeg") : Results.NotFound());
        app.MapGet("/orders/complaints/{number:int}/claim.pdf", async (int number, string? supplier, string? lot, int? pieces, string? asks, ClaimLetter letter, CancellationToken cancel) =>
            Send(await letter.RunAsync(new(number, new(supplier ?? ""), string.IsNullOrEmpty(lot) ? null : new(lot), pieces ?? 0, asks ?? ""), cancel)));
        app.MapGet("/editions/prints/{code}/certificate.pdf", async (string code, CertificateDocument certificate, CancellationToken cancel) =>
            Send(await certificate.RunAsync(new(code), cancel)));
    }

    private static async Task<Results<FileContentHttpResult, ContentHttpResult>> LabelAsync(string code, LotLabel label, CancellationToken cancel) =>
        Send(await label.RunAsync(new([new(code)]), cancel));

    private static async Task<Results<FileContentHttpResult, ContentHttpResult>> LabelsAsync(
        string[] lot, LotLabel label, CancellationToken cancel, int first = 1) =>
        Send(await label.RunAsync(new([.. lot.Select(l => new LotCode(l))], OnASheet: true, first), cancel));

    private static async Task<Results<FileContentHttpResult, ContentHttpResult>> CardAsync(int number, RunCardDocument card, CancellationToken cancel) =>
        Send(await card.RunAsync(new(number), cancel));

    // Shown in the browser, from where it is printed; a no is said in words where the document would be.
    private static Results<FileContentHttpResult, ContentHttpResult> Send(Outcome<Document> asked) => asked.Granted
        ? TypedResults.File(asked.Value.Pdf, "application/pdf")
        : TypedResults.Text(asked.Refusal.Message, "text/plain; charset=utf-8", statusCode: StatusCodes.Status409Conflict);
}
