using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Goodsheet.Web.Look;

/// <summary>The light in the room, light, dim or as the device is set, remembered in a cookie so that no script is needed.</summary>
public static class LightEndpoint
{
    public const string Cookie = "goodsheet-light";

    /// <summary>"light" or "dim" when somebody said so; null follows the device.</summary>
    public static string? Of(HttpContext? http) => http?.Request.Cookies[Cookie] is "light" or "dim" ? http.Request.Cookies[Cookie] : null;

    public static void MapLight(this IEndpointRouteBuilder app) => app.MapPost("/light", Set).DisableAntiforgery();

    private static RedirectHttpResult Set([FromForm] string room, [FromForm] string? back, HttpContext http)
    {
        if (room is "light" or "dim")
        {
            http.Response.Cookies.Append(Cookie, room, new()
            {
                MaxAge = TimeSpan.FromDays(400),
                SameSite = SameSiteMode.Strict,
                HttpOnly = true,
                IsEssential = true,
            });
        }
        else
        {
            http.Response.Cookies.Delete(Cookie);
        }

        return TypedResults.LocalRedirect(back is ['/', not ('/' or '\\'), ..] or "/" ? back : "/");
    }
}
