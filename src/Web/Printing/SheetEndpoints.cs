using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Files;
using Goodsheet.App.Printing;
using Goodsheet.App.Runs;
using Goodsheet.App.Work;
using Goodsheet.Web.People;

namespace Goodsheet.Web.Printing;

/// <summary>The files of a run's sheets: asked for, handed over, taken by hand.</summary>
internal static class SheetEndpoints
{
    public static void MapSheets(this IEndpointRouteBuilder app)
    {
        app.MapPost("/runs/{run:int}/sheets", SendAsync).DisableAntiforgery();
        app.MapPost("/runs/{run:int}/sheets/{sheet:int}/again", AgainAsync).DisableAntiforgery();
        app.MapGet("/runs/{run:int}/sheets/{sheet:int}.tif", FileAsync);
        app.MapPost("/runs/{run:int}/prepare-again", async (int run, WorkDesk desk, Visitor visitor, CancellationToken cancel) =>
            TypedResults.LocalRedirect($"/work/{await desk.AskAsync<PrepareRunAgain>($"Files of run {run} made again", visitor.Name, cancel)}?then=/runs/{run}")).DisableAntiforgery();
    }

    private static async Task<RedirectHttpResult> SendAsync(int run, WorkDesk desk, Visitor visitor, CancellationToken cancel) =>
        TypedResults.LocalRedirect($"/work/{await desk.AskAsync<SendSheets>($"Sheets of run {run}", visitor.Name, cancel)}?then=/runs/{run}");

    private static async Task<RedirectHttpResult> AgainAsync(int run, int sheet, SendAgain again, WorkDesk desk, Visitor visitor, CancellationToken cancel) =>
        (await again.RunAsync(new(run, sheet), cancel)).Granted ? await SendAsync(run, desk, visitor, cancel) : TypedResults.LocalRedirect($"/runs/{run}");

    private static async Task<Results<PhysicalFileHttpResult, NotFound>> FileAsync(int run, int sheet, ShowSheets show, FileShelf files, CancellationToken cancel) =>
        (await show.RunAsync(run, cancel))?.Sheets.FirstOrDefault(s => s.Sheet.Number == sheet)?.Sheet.FileHash is { } hash && files.Has(hash)
            ? TypedResults.PhysicalFile(files.PathOf(hash), "image/tiff", $"run-{run}-sheet-{sheet}.tif", enableRangeProcessing: true)
            : TypedResults.NotFound();
}
