using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Orders;
using Goodsheet.Room;

namespace Goodsheet.Web.Orders;

/// <summary>Files of a print beside its TIFF: the PDF, test strips, tiles, sheets of proofs.</summary>
internal static class PrintFileEndpoints
{
    public static void MapPrintFiles(this IEndpointRouteBuilder app)
    {
        app.MapGet("/orders/{order:int}/{line:int}/print.pdf", async (int order, int line, PrintPdf pdf, HttpContext http, CancellationToken cancel) =>
            Sent(await pdf.RunAsync(new(order, line), cancel), http));
        app.MapGet("/orders/{order:int}/{line:int}/strips/{number:int}.tif", async (int order, int line, int number, ShowTestStrips show, CancellationToken cancel) =>
            Tiff(await show.FileAsync(order, line, number, cancel), $"order-{order}-{line}-strip-{number}.tif"));
        app.MapGet("/orders/{order:int}/{line:int}/tiles/{set:int}/{tile:int}.tif", async (int order, int line, int set, int tile, ShowTiles show, CancellationToken cancel) =>
            Tiff(await show.FileAsync(order, line, set, tile, cancel), $"order-{order}-{line}-tile-{tile}.tif"));
        app.MapGet("/orders/{order:int}/{line:int}/tiles/{set:int}.pdf", async (int order, int line, int set, ShowTiles show, HttpContext http, CancellationToken cancel) =>
            Sent(await show.PdfAsync(order, line, set, cancel), http));
        app.MapGet("/orders/{order:int}/{line:int}/proofs/{number:int}.tif", async (int order, int line, int number, ShowProofSheets show, CancellationToken cancel) =>
            Tiff(await show.FileAsync(order, line, number, cancel), $"order-{order}-{line}-proofs-{number}.tif"));
        app.MapGet("/orders/{order:int}/{line:int}/proofs/{number:int}.pdf", async (int order, int line, int number, ShowProofSheets show, HttpContext http, CancellationToken cancel) =>
            Sent(await show.PdfAsync(order, line, number, cancel), http));
        app.MapGet("/orders/{order:int}/{line:int}/proofs/{number:int}.jpg", async (int order, int line, int number, ShowProofSheets show, CancellationToken cancel) =>
            await show.PictureAsync(order, line, number, cancel) is { } jpeg ? Results.File(jpeg, "image/jpeg") : Results.NotFound());
    }

    private static Results<PhysicalFileHttpResult, NotFound> Tiff(string? path, string name) =>
        path is null ? TypedResults.NotFound() : TypedResults.PhysicalFile(path, "image/tiff", name, enableRangeProcessing: true);

    // Written while it is sent, so that a large print needs neither memory nor a second file; libvips and zlib write without waiting.
    private static Results<PushStreamHttpResult, ContentHttpResult> Sent(Outcome<PrintPdf.Done> asked, HttpContext http)
    {
        if (asked.Value is not { } done)
        {
            return TypedResults.Text(asked.Refusal!.Message, "text/plain; charset=utf-8", statusCode: StatusCodes.Status409Conflict);
        }

        if (http.Features.Get<IHttpBodyControlFeature>() is { } body)
        {
            body.AllowSynchronousIO = true;
        }

        return TypedResults.Stream(to => Task.Run(() => done.WriteTo(to, http.RequestAborted)), "application/pdf", done.FileName);
    }
}
