using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Documents;
using Goodsheet.App.Papers;
using Goodsheet.Room.Papers;

namespace Goodsheet.Web.Papers;

/// <summary>The numbers of a paper page as a file, and photographs of bench tests.</summary>
internal static class PaperEndpoints
{
    public static void MapPapers(this IEndpointRouteBuilder app)
    {
        app.MapGet("/papers/{code}/figures.csv", FiguresAsync);
        app.MapGet("/papers/{code}/page.pdf", PageAsync);
        app.MapGet("/papers/compare.csv", CompareAsync);
        app.MapGet("/papers/bench/{test:guid}/photo", PhotoAsync);
    }

    private static async Task<Results<FileContentHttpResult, NotFound<string>>> FiguresAsync(
        string code, ShowPaper show, AssessPaper assess, CancellationToken cancel)
    {
        if (await show.RunAsync(new(code), cancel) is not { Charts.Count: > 0 } page)
        {
            return TypedResults.NotFound("Nobody has measured this paper here.");
        }

        var proof = await assess.RunAsync(new(page.Charts, page.Rule), cancel);
        return proof.Granted
            ? TypedResults.File(Encoding.UTF8.GetBytes(PaperCsv.Of(proof.Value)), "text/csv; charset=utf-8", $"{page.Paper.Code}.csv")
            : TypedResults.NotFound(proof.Refusal.Message);
    }

    private static async Task<Results<FileContentHttpResult, NotFound>> PageAsync(
        string code, ShowPaper show, AssessPaper assess, TimeProvider clock, CancellationToken cancel)
    {
        if (await show.RunAsync(new(code), cancel) is not { } page)
        {
            return TypedResults.NotFound();
        }

        var proof = page.Charts.Count == 0 ? null : (await assess.RunAsync(new(page.Charts, page.Rule), cancel)).Value;
        return TypedResults.File(PaperPages.Draw(page, proof, clock.GetLocalNow()).Pdf, "application/pdf");
    }

    private static async Task<FileContentHttpResult> CompareAsync(string[] p, ComparePapers compare, AssessPaper assess, CancellationToken cancel)
    {
        var sides = (await compare.RunAsync(new([.. p.Select(code => new PaperCode(code))]), cancel)).Value!.Sides;
        var proofs = new List<(string, AssessPaper.Done)>();
        foreach (var side in sides.Where(s => s.Charts.Count > 0))
        {
            if ((await assess.RunAsync(new(side.Charts), cancel)).Value is { } proof)
            {
                proofs.Add((side.Paper.Name, proof));
            }
        }

        return TypedResults.File(Encoding.UTF8.GetBytes(PaperCsv.Of(proofs)), "text/csv; charset=utf-8", "papers.csv");
    }

    private static async Task<Results<PhysicalFileHttpResult, NotFound>> PhotoAsync(Guid test, ShowPaper show, CancellationToken cancel) =>
        await show.PhotoAsync(test, cancel) is var (path, type) ? TypedResults.PhysicalFile(path, type) : TypedResults.NotFound();
}
