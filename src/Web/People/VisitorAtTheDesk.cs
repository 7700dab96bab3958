using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;

namespace Goodsheet.Web.People;

/// <summary>Reads who is at the page from what the browser brings.</summary>
public static class VisitorAtTheDesk
{
    private const int LongestName = 60;

    /// <summary>On the room's own machine a name is picked, not proved: the cookie is believed.</summary>
    public static IApplicationBuilder UseVisitor(this IApplicationBuilder app) => app.Use((http, next) =>
    {
        if (http.Request.Cookies[Visitor.Cookie] is { Length: > 0 and <= LongestName } name)
        {
            http.RequestServices.GetRequiredService<Visitor>().Name = new(name);
        }

        return next(http);
    });
}
