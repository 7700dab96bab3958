using System.Net;
using Microsoft.AspNetCore.Http;

namespace Goodsheet.Web.People;

/// <summary>Whether a request comes from the room's own machine. Only there is a name picked and not proved.</summary>
public static class Desk
{
    // Any of these means that something stood between the browser and us, though the connection is local.
    private static readonly string[] Passed =
    [
        "Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto", "X-Original-For", "X-Original-Host",
        "X-Original-Proto", "X-Real-IP", "X-Client-IP", "True-Client-IP", "CF-Connecting-IP", "Via",
    ];

    /// <remarks>No browser speaks HTTP/1.0, but a proxy that adds no header of its own often does.</remarks>
    public static bool IsHere(HttpContext http) =>
        http.Connection.RemoteIpAddress is { } from && IPAddress.IsLoopback(Plain(from))
        && IsOwnName(http.Request.Host.Host)
        && http.Request.Protocol != HttpProtocol.Http10
        && !Passed.Any(http.Request.Headers.ContainsKey);

    /// <summary>A name that means this machine on this machine.</summary>
    public static bool IsOwnName(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase)
        || (IPAddress.TryParse(host.Trim('[', ']'), out var address) && IPAddress.IsLoopback(Plain(address)));

    public static IPAddress Plain(IPAddress address) => address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address;
}
