using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Goodsheet.App.Settings;

namespace Goodsheet.Web.People;

/// <summary>Answers only to the room's own names.</summary>
/// <remarks>
/// A page elsewhere can make its own name point at this machine, and its script would then read the room as if the
/// room were its own (DNS rebinding). The browser still sends that page's name as the host.
/// </remarks>
public static class HostNames
{
    public static IApplicationBuilder UseHostNames(this IApplicationBuilder app) => app.Use(async (http, next) =>
    {
        if (await IsOursAsync(http))
        {
            await next(http);
            return;
        }

        http.Response.StatusCode = StatusCodes.Status421MisdirectedRequest;
        await http.Response.WriteAsync(
            "This room does not answer to that name. Open it by its stated address; people at the room's own machine see it under People, Phones.",
            http.RequestAborted);
    });

    private static async Task<bool> IsOursAsync(HttpContext http)
    {
        var host = http.Request.Host.Host;
        if (Desk.IsOwnName(host))
        {
            return http.Connection.RemoteIpAddress is { } from && IPAddress.IsLoopback(Desk.Plain(from));
        }

        // The very address the connection came to: a number cannot be made to point elsewhere.
        if (IPAddress.TryParse(host.Trim('[', ']'), out var address)
            && http.Connection.LocalIpAddress is { } here && Desk.Plain(here).Equals(Desk.Plain(address)))
        {
            return true;
        }

        var settings = await http.RequestServices.GetRequiredService<ShowSettings>().RunAsync(http.RequestAborted);
        return Uri.TryCreate(settings.Address, UriKind.Absolute, out var stated)
            && stated.Host.Trim('[', ']').Equals(host.Trim('[', ']'), StringComparison.OrdinalIgnoreCase);
    }
}
