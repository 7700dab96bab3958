using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Profiles;
using Goodsheet.App.Work;
using Goodsheet.Web.People;

namespace Goodsheet.Web.Profiles;

/// <summary>Long work that a page asks for, and files that leave the room.</summary>
public static class ProfileEndpoints
{
    public static void MapProfiles(this IEndpointRouteBuilder app)
    {
        app.MapPost("/readings/{number:int}/profile", MakeAsync).DisableAntiforgery();
        app.MapPost("/orders/{order:int}/{line:int}/prepare", PrepareAsync).DisableAntiforgery();
        app.MapGet("/charts/{hash:regex(^[0-9a-f]{{64}}$)}/{name}", Chart);
        app.MapGet("/profiles/{number:int}/file.icc", FileAsync);
        app.MapGet("/profiles/{number:int}/worth.json", JsonAsync);
        app.MapGet("/profiles/{number:int}/worth.csv", CsvAsync);
        app.MapGet("/profiles/{number:int}/worth.pdf", PdfAsync);
        app.MapGet("/profiles/{number:int}/solid.json", SolidAsync);
        app.MapGet("/profiles/{number:int}/gamut.csv", GamutCsvAsync);
        app.MapGet("/profiles/{number:int}/older.icc", OlderAsync);
        app.MapGet("/orders/{order:int}/{line:int}/print.tif", PrintAsync);
    }

    private static async Task<RedirectHttpResult> MakeAsync(
        int number, HttpRequest request, WorkDesk desk, ShowProfiles show, Visitor visitor, CancellationToken cancel)
    {
        // Most of the page's forms have no fields, and the framework's own binding refuses an empty form.
        var form = request.HasFormContentType ? await request.ReadFormAsync(cancel) : FormCollection.Empty;
        int? ink = int.TryParse(form["ink"], NumberStyles.None, CultureInfo.InvariantCulture, out var most) ? most : null;
        BlackStart? black = Enum.TryParse<BlackStart>(form["black"], out var start) && Enum.IsDefined(start) ? start : null;
        var others = form["days"].ToString() is "this" or "mean" ? (await show.ReadingAsync(number, cancel))?.Earlier ?? [] : [];
        var about = others.Count == 0 ? $"Profile from reading {number}" : $"Profile from readings {string.Join(' ', others)} {number}";
        about += others.Count > 0 && form["days"] == "mean" ? $" for {MakeRoomProfile.MeanOfDays}" : "";
        about += MakeRoomProfile.InkWords(ink, black ?? BlackStart.Usual);
        about += form["tables"] == "fine" ? $" with {MakeRoomProfile.FineTables}" : "";
        about += form["light"] == "warm" ? $" for a {MakeRoomProfile.WarmLamp}" : "";
        return TypedResults.LocalRedirect($"/work/{await desk.AskAsync<MakeRoomProfile>(about, visitor.Name, cancel)}?then=/readings/{number}");
    }

    private static async Task<RedirectHttpResult> PrepareAsync(int order, int line, WorkDesk desk, Visitor visitor, CancellationToken cancel) =>
        TypedResults.LocalRedirect($"/work/{await desk.AskAsync<PreparePrint>($"File of print {order}/{line}", visitor.Name, cancel)}?then=/orders/{order}");

    // By what is in it: nobody who was not given the link knows it.
    private static Results<PhysicalFileHttpResult, NotFound> Chart(string hash, string name, FileShelf files) =>
        files.Has(hash) && Path.GetExtension(name) is (".tif" or ".txt" or ".pdf") and var kind
            ? TypedResults.PhysicalFile(files.PathOf(hash), kind switch { ".tif" => "image/tiff", ".pdf" => "application/pdf", _ => "text/plain" }, name)
            : TypedResults.NotFound();

    private static async Task<Results<PhysicalFileHttpResult, NotFound>> FileAsync(
        int number, ShowProfiles show, FileShelf files, CancellationToken cancel) =>
        await show.OneAsync(number, cancel) is { } line && files.Has(line.Profile.FileHash)
            ? TypedResults.PhysicalFile(files.PathOf(line.Profile.FileHash), "application/vnd.iccprofile", $"{line.Condition.Code}-{line.Profile.Version}.icc")
            : TypedResults.NotFound();

    private static async Task<Results<JsonHttpResult<WorthRecord>, NotFound>> JsonAsync(int number, ShowProfiles show, CancellationToken cancel) =>
        await show.OneAsync(number, cancel) is { } line && ShowProfiles.WorthOf(line.Profile) is { } worth ? TypedResults.Json(worth) : TypedResults.NotFound();

    private static async Task<Results<FileContentHttpResult, NotFound>> CsvAsync(int number, ShowProfiles show, CancellationToken cancel) =>
        await show.OneAsync(number, cancel) is { } line && ShowProfiles.WorthOf(line.Profile) is { } worth
            ? TypedResults.File(Encoding.UTF8.GetBytes(WorthCsv.Of(worth)), "text/csv", $"profile-{number}.csv") : TypedResults.NotFound();

    private static async Task<Results<FileContentHttpResult, NotFound>> PdfAsync(int number, WorthDocument document, CancellationToken cancel) =>
        await document.RunAsync(number, cancel) is { Granted: true } drawn ? TypedResults.File(drawn.Value.Pdf, "application/pdf", drawn.Value.FileName) : TypedResults.NotFound();

    private static async Task<Results<JsonHttpResult<IReadOnlyList<double[]>>, NotFound>> SolidAsync(int number, ShowGamut show, CancellationToken cancel) =>
        await show.RunAsync(number, cancel) is { } shape ? TypedResults.Json(shape.Triangles) : TypedResults.NotFound();

    private static async Task<Results<FileContentHttpResult, NotFound>> GamutCsvAsync(int number, ShowGamut show, CancellationToken cancel) =>
        await show.RunAsync(number, cancel) is { } shape
            ? TypedResults.File(Encoding.UTF8.GetBytes(WorthCsv.Of(shape)), "text/csv", $"profile-{number}-gamut.csv") : TypedResults.NotFound();

    private static async Task<Results<FileContentHttpResult, NotFound<string>>> OlderAsync(int number, TakeOlderProfile take, CancellationToken cancel)
    {
        var taken = await take.RunAsync(number, cancel);
        return taken.Granted ? TypedResults.File(taken.Value.File, "application/vnd.iccprofile", taken.Value.Name) : TypedResults.NotFound(taken.Refusal.Message);
    }

    private static async Task<Results<PhysicalFileHttpResult, NotFound>> PrintAsync(
        int order, int line, ShowOrders show, FileShelf files, CancellationToken cancel) =>
        (await show.OneAsync(order, cancel))?.Prints.SingleOrDefault(p => p.Line == line)?.PreparedHash is { } hash && files.Has(hash)
            ? TypedResults.PhysicalFile(files.PathOf(hash), "image/tiff", $"order-{order}-{line}.tif", enableRangeProcessing: true)
            : TypedResults.NotFound();
}
