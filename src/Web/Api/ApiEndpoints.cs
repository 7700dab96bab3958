using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Orders;
using Goodsheet.App.Papers;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;
using Goodsheet.Web.Orders;

namespace Goodsheet.Web.Api;

/// <summary>Orders over HTTP, for programs that were given a key. The document at /api/openapi.json describes it.</summary>
internal static class ApiEndpoints
{
    private const long LargestPicture = 2L << 30;
    private const int LeastKey = 8;
    private const int MostKey = 200;

    public static void MapApi(this WebApplication app)
    {
        app.MapOpenApi("/api/openapi.json");
        var api = app.MapGroup("/api").DisableAntiforgery().ProducesProblem401();
        api.MapPost("/pictures", PutPictureAsync).WithName("putPicture").WithSummary("Sends a picture: TIFF, JPEG or PNG.")
            .WithMetadata(new RequestSizeLimitAttribute(LargestPicture));
        api.MapPost("/orders", PutOrderAsync).WithName("putOrder").WithSummary("Puts an order. The same Idempotency-Key with the same order puts it once.");
        api.MapGet("/orders/{number:int}", ShowOrderAsync).WithName("showOrder").WithSummary("Says how an order is that this key put.");
        api.MapGet("/papers", PapersAsync).WithName("listPapers").WithSummary("Lists the papers that may be asked for.");
        api.MapGet("/formats", FormatsAsync).WithName("listFormats").WithSummary("Lists the sizes of sheets and rolls.");
    }

    private static RouteGroupBuilder ProducesProblem401(this RouteGroupBuilder group)
    {
        group.WithMetadata(new ProducesResponseTypeAttribute(typeof(Problem), StatusCodes.Status401Unauthorized), new ProducesResponseTypeAttribute(typeof(Problem), StatusCodes.Status429TooManyRequests));
        return group;
    }

    private static async Task<Results<Created<KeptPicture>, UnprocessableEntity<Problem>>> PutPictureAsync(Stream body, KeepPicture keep, CancellationToken cancel)
    {
        var kept = await keep.RunAsync(body, cancel);
        return kept.Granted
            ? TypedResults.Created((string?)null, new KeptPicture(kept.Value.Hash, kept.Value.PixelsWide, kept.Value.PixelsHigh))
            : TypedResults.UnprocessableEntity(new Problem(kept.Refusal.Message));
    }

    private static async Task<Results<Created<OrderSays>, UnprocessableEntity<Problem>, Conflict<Problem>>> PutOrderAsync(
        NewOrder order, [FromHeader(Name = "Idempotency-Key")] string idempotencyKey, HttpContext http, PutOrder put, ShowOrders show, WorkDesk desk, CancellationToken cancel)
    {
        if (idempotencyKey.Length is < LeastKey or > MostKey)
        {
            return TypedResults.UnprocessableEntity(new Problem($"Idempotency-Key has {LeastKey} to {MostKey} letters: one of your own for each order."));
        }

        if (!TryRead(order, out var prints, out var asks, out var why))
        {
            return TypedResults.UnprocessableEntity(new Problem(why));
        }

        var by = http.Bearer();
        var command = new CommandId(new Guid(SHA256.HashData(Encoding.UTF8.GetBytes($"{by}\n{idempotencyKey}")).AsSpan(0, 16)));
        var done = await put.RunAsync(new(command, by, order.Client, order.Reference ?? "", order.Promised, asks, prints), cancel);
        if (!done.Granted)
        {
            return done.Refusal is CommandUsedOtherwise
                ? TypedResults.Conflict(new Problem("This Idempotency-Key came before, with another order. Nothing was changed."))
                : TypedResults.UnprocessableEntity(new Problem(done.Refusal.Message));
        }

        await desk.HandOverAsync(done.Value.Looks, cancel); // its pictures are looked at in the background

        var says = Says((await show.OneAsync(done.Value.Order, cancel))!);
        return TypedResults.Created($"/api/orders/{says.Order}", says); // the same answer to the same wish, however often it comes
    }

    private static async Task<Results<Ok<OrderSays>, NotFound<Problem>>> ShowOrderAsync(int number, HttpContext http, ShowOrders show, CancellationToken cancel) =>
        await show.OneAsync(number, cancel) is { } all && all.Order.TakenBy == http.Bearer()
            ? TypedResults.Ok(Says(all))
            : TypedResults.NotFound(new Problem($"This key put no order {number}."));

    private static async Task<Ok<List<PaperSays>>> PapersAsync(ShowPapers show, CancellationToken cancel) => TypedResults.Ok(
        (await show.RunAsync(cancel)).Papers.Where(p => p.Paper.LineUp is LineUp.In or LineUp.RunningDown)
            .Select(p => new PaperSays(p.Paper.Code.Value, p.Paper.Name, p.Paper.Class.ToString(), p.Paper.Grammage)).ToList());

    private static async Task<Ok<List<FormatSays>>> FormatsAsync(ShowFormats show, CancellationToken cancel) => TypedResults.Ok(
        (await show.RunAsync(cancel)).Select(f => new FormatSays(f.Code.Value, f.IsRoll, f.Width.Millimetres, f.IsRoll ? null : f.Height.Millimetres)).ToList());

    private static OrderSays Says(ShowOrders.Page all) => new(
        all.Order.Number, all.Client.Name, all.Order.Reference, all.Order.Promised, OrderWords.State(all.Order), all.Order.State is OrderState.Done,
        [.. all.Prints.Select(p => new PrintSays(p.Line, p.Title, p.Copies, p.Good, [.. all.Findings.Where(f => f.Line == p.Line).Select(f => f.Text)]))]);

    private static string? Missing(NewOrder? order) => order switch
    {
        not { Client: not null } => "client",
        not { Prints: not null } => "prints",
        _ => order.Prints.Select((p, i) => p switch
        {
            not { Picture: not null } => $"picture of print {i + 1}",
            not { FileName: not null } => $"fileName of print {i + 1}",
            not { Paper: not null } => $"paper of print {i + 1}",
            _ => null,
        }).FirstOrDefault(m => m is not null),
    };

    private static bool TryRead(NewOrder order, out List<PrintWish> prints, out ApprovalOf asks, out string why)
    {
        (prints, why, asks) = ([], "", ApprovalOf.Nothing);
        if (Missing(order) is { } missing)
        {
            why = $"An order has a client and prints, and each print a picture, a fileName and a paper. {missing} is missing.";
            return false;
        }

        if (!Enum.TryParse(order.Approval ?? nameof(ApprovalOf.Nothing), ignoreCase: true, out asks) || !Enum.IsDefined(asks))
        {
            why = "approval is nothing, proof or quotation.";
            return false;
        }

        foreach (var print in order.Prints)
        {
            if (Edges.Read(print.Edge) is not { } edge)
            {
                why = $"edge is {Edges.Words}.";
                return false;
            }

            prints.Add(new(
                print.Picture, print.FileName, print.Title ?? "", Mm(print.WidthMm), Mm(print.HeightMm), Mm(print.BorderMm ?? 0), edge, Mm(print.AroundMm ?? 0),
                new(print.Paper), print.Copies, Length.FromMillimetres(500)));
        }

        return true;
    }

    private static Length Mm(double mm) => Length.NearestToMillimetres(double.IsFinite(mm) ? Math.Clamp(mm, -1, 1e6) : -1);
}
