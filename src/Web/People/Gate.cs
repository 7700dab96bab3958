using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Goodsheet.App.People;
using Goodsheet.Web.Api;

namespace Goodsheet.Web.People;

/// <summary>Finds out who is at the page, and lets in from elsewhere only who signed in or was paired.</summary>
public static class Gate
{
    private const int LongestCookie = 100;

    /// <summary>What anybody may open: the ways in, and what those pages are made of.</summary>
    private static readonly HashSet<string> Open = new(StringComparer.OrdinalIgnoreCase) { "/people/sign-in", "/people/pair", "/light" };

    public static IApplicationBuilder UseGate(this IApplicationBuilder app) => app.Use(async (http, next) =>
    {
        var visitor = http.RequestServices.GetRequiredService<Visitor>();
        await IdentifyAsync(http, visitor);
        var path = http.Request.Path;
        var isOpen = Open.Contains(path.Value ?? "") || path.StartsWithSegments("/_content", StringComparison.Ordinal)
            || ApiDoor.IsApi(http); // it has a door of its own
        if (isOpen || visitor.At is not Visitor.Way.Outside)
        {
            if (!isOpen && MustBeSignedIn(http.Request) && !visitor.LooksAfterPeople)
            {
                http.Response.StatusCode = StatusCodes.Status403Forbidden;
                return;
            }

            await next(http);
        }
        else if (HttpMethods.IsGet(http.Request.Method) && http.Request.Headers.Accept.ToString().Contains("text/html", StringComparison.Ordinal))
        {
            http.Response.Redirect($"/people/sign-in?then={Uri.EscapeDataString(path + http.Request.QueryString)}");
        }
        else
        {
            http.Response.StatusCode = StatusCodes.Status401Unauthorized;
        }
    });

    /// <summary>Guesses at a PIN or a code are held to so many a minute from one place.</summary>
    public static bool IsAGuess(HttpContext http) => HttpMethods.IsPost(http.Request.Method)
        && (http.Request.Path.Equals("/people/sign-in", StringComparison.OrdinalIgnoreCase)
            || http.Request.Path.Equals("/people/pair", StringComparison.OrdinalIgnoreCase));

    // People, PINs and phones are not changed from a paired phone: who finds one should not be able to let in another.
    private static bool MustBeSignedIn(HttpRequest request) => !HttpMethods.IsGet(request.Method) && !HttpMethods.IsHead(request.Method)
        && request.Path.StartsWithSegments("/people", StringComparison.OrdinalIgnoreCase)
        && !request.Path.Equals("/people/sign-out", StringComparison.OrdinalIgnoreCase);

    private static async Task IdentifyAsync(HttpContext http, Visitor visitor)
    {
        var identify = http.RequestServices.GetRequiredService<IdentifyVisitor>();
        if (Desk.IsHere(http))
        {
            visitor.IsAtTheDesk(http.Request.Cookies[Visitor.PickedCookie] is { Length: > 0 and <= LongestCookie } name
                ? await identify.PickedAsync(name, http.RequestAborted) : null);
        }
        else if (http.Request.Cookies[Visitor.DeviceCookie] is { Length: > 0 and <= LongestCookie } token
            && await identify.BearerAsync(token, http.RequestAborted) is { } device)
        {
            visitor.IsFromElsewhere(device);
        }
    }
}
