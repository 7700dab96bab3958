using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.People;

namespace Goodsheet.Web.People;

/// <summary>Remembers which name was picked at this screen.</summary>
public static class PeopleEndpoints
{
    public static void MapPeople(this IEndpointRouteBuilder app) => app.MapPost("/people/pick", PickAsync).DisableAntiforgery();

    private static async Task<RedirectHttpResult> PickAsync([FromForm] string name, HttpContext http, ShowPeople show, CancellationToken cancel)
    {
        if ((await show.RunAsync(cancel)).Any(p => p.Name.Value == name))
        {
            http.Response.Cookies.Append(Visitor.Cookie, name, new()
            {
                MaxAge = TimeSpan.FromDays(30),
                SameSite = SameSiteMode.Strict,
                HttpOnly = true,
                IsEssential = true,
            });
        }

        return TypedResults.LocalRedirect("/");
    }
}
