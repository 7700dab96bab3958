using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.People;

namespace Goodsheet.Web.People;

/// <summary>Remembers which name was picked at this screen, and forgets it.</summary>
public static class PeopleEndpoints
{
    private static readonly TimeSpan PickedFor = TimeSpan.FromDays(30);

    public static void MapPeople(this IEndpointRouteBuilder app)
    {
        app.MapPost("/people/pick", PickAsync).DisableAntiforgery();
        app.MapPost("/people/sign-out", SignOutAsync).DisableAntiforgery();
    }

    private static async Task<Results<RedirectHttpResult, StatusCodeHttpResult>> PickAsync(
        [FromForm] string name, HttpContext http, Visitor visitor, IdentifyVisitor identify, CancellationToken cancel)
    {
        if (visitor.At is not Visitor.Way.Desk)
        {
            return TypedResults.StatusCode(StatusCodes.Status403Forbidden); // from elsewhere a name is proved
        }

        if (await identify.PickedAsync(name, cancel) is { } picked)
        {
            http.Response.Cookies.Append(Visitor.PickedCookie, picked.Value, new()
            {
                MaxAge = PickedFor,
                SameSite = SameSiteMode.Strict,
                HttpOnly = true,
                IsEssential = true,
            });
        }

        return TypedResults.LocalRedirect("/");
    }

    private static async Task<RedirectHttpResult> SignOutAsync(HttpContext http, Visitor visitor, RevokeDevice revoke, CancellationToken cancel)
    {
        if (visitor.Device is { } device)
        {
            await revoke.RunAsync(new(device), cancel);
        }

        http.Response.Cookies.Delete(Visitor.DeviceCookie);
        http.Response.Cookies.Delete(Visitor.PickedCookie);
        return TypedResults.LocalRedirect(visitor.At is Visitor.Way.Desk ? "/people" : "/people/sign-in");
    }
}
