using Microsoft.AspNetCore.Builder;

namespace Goodsheet.Web;

/// <summary>What a browser may do with a page of the room: nothing that is not ours, and no frame around it.</summary>
public static class ResponseHeaders
{
    /// <remarks>Style attributes carry lengths and positions of plots and bars; a style sheet or script from within a page is refused.</remarks>
    private const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; style-src-attr 'unsafe-inline'; img-src 'self' data:; "
        + "font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'self'; frame-ancestors 'none'";

    public static IApplicationBuilder UseResponseHeaders(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        http.Response.OnStarting(() =>
        {
            var headers = http.Response.Headers;
            headers.ContentSecurityPolicy = Policy;
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "same-origin";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
            return Task.CompletedTask;
        });
        return next(http);
    });
}
