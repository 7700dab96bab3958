using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Goodsheet.Web.Look;

/// <summary>The light in the room, light or dim, remembered in a cookie so that no script is needed.</summary>
public static class LightEndpoint
{
    public const string Cookie = "goodsheet-light";

    public static void MapLight(this IEndpointRouteBuilder app) => app.MapPost("/light", Set).DisableAntiforgery();

    private static RedirectHttpResult Set([FromForm] string room, [FromForm] string back, HttpContext http)
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

        return TypedResults.LocalRedirect(back is ['/', not ('/' or '\\'), ..] or "/" ? back : "/");
    }
}
