using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Orders;

namespace Goodsheet.Web.Orders;

/// <summary>What the page of a new order shows of its picture while the size is being typed.</summary>
internal static class BroughtInEndpoints
{
    public static void MapBroughtIn(this IEndpointRouteBuilder app)
    {
        app.MapGet("/orders/new/picture.jpg", async (string file, ShowBroughtIn show, HttpContext http, CancellationToken cancel) =>
        {
            if (await show.SmallAsync(file, cancel) is not { } jpeg)
            {
                return Results.NotFound();
            }

            http.Response.Headers.CacheControl = "private, max-age=86400, immutable"; // by what is in it
            return Results.File(jpeg, "image/jpeg");
        });
        app.MapGet("/orders/new/shape", async (string file, string? width, string? height, ShowBroughtIn show, CancellationToken cancel) =>
            (await show.RunAsync(new(file, ""), cancel)).Value is { } picture ? Results.Json(Of(CropShown.Of(picture.Shape, width, height))) : Results.NotFound());
    }

    private static Shown Of(CropShown crop) => new(
        crop.AtSides.ToString(CultureInfo.InvariantCulture), crop.AboveAndBelow.ToString(CultureInfo.InvariantCulture), crop.Says, crop.Width?.Millimetres.ToString("0.##", CultureInfo.CurrentCulture), crop.Height?.Millimetres.ToString("0.##", CultureInfo.CurrentCulture));

    /// <summary>As the page's script reads it; the shares in per cent of the picture.</summary>
    private sealed record Shown(string Sides, string Ends, string Says, string? Width, string? Height);
}
