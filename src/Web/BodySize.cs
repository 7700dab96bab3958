using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace Goodsheet.Web;

/// <summary>Refuses what says beforehand that it is too large, before anything reads it and makes it another fault.</summary>
public static class BodySize
{
    /// <summary>Of a form without a file. What takes files says so itself.</summary>
    public const long LargestForm = 4 << 20;

    public static IApplicationBuilder UseBodySize(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        if (http.Request.ContentLength > http.Features.Get<IHttpMaxRequestBodySizeFeature>()?.MaxRequestBodySize)
        {
            http.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
            return Task.CompletedTask;
        }

        return next(http);
    });
}
