using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Orders;
using Goodsheet.Room.Orders;

namespace Goodsheet.Web.Orders;

/// <summary>The pictures of a proof page.</summary>
internal static class ProofEndpoints
{
    public static void MapProofs(this IEndpointRouteBuilder app) => app.MapGet("/orders/{order:int}/{line:int}/proof.jpg", PictureAsync);

    private static async Task<Results<FileContentHttpResult, NotFound<string>>> PictureAsync(
        int order, int line, string? paper, Intent? intent, bool? white, bool? hatch, bool? asItCame, bool? small, ProofPrint proof, HttpContext http, CancellationToken cancel)
    {
        var made = await proof.RunAsync(
            new(order, line, paper is null ? null : new(paper), intent is { } i && Enum.IsDefined(i) ? i : null, white ?? true, hatch ?? false, asItCame ?? false, small ?? false), cancel);
        if (!made.Granted)
        {
            return TypedResults.NotFound(made.Refusal.Message);
        }

        // The page asks by profile, too, and a line's picture stays the same: what it asks for never changes under one address.
        http.Response.Headers.CacheControl = http.Request.Query.ContainsKey("profile") || asItCame is true ? "private, max-age=86400, immutable" : "no-store";
        return TypedResults.File(made.Value.File, "image/jpeg");
    }
}
