using System.Net;
using Microsoft.AspNetCore.Http;
using Goodsheet.Web.People;

namespace Goodsheet.Web;

/// <summary>How far the room can be reached.</summary>
public static class Reach
{
    /// <summary>Whether any of these lets in more than this machine. What is not surely this machine is more.</summary>
    public static bool IsBeyondThisMachine(IEnumerable<string> urls) => urls
        .SelectMany(all => all.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        .Any(url => !Desk.IsOwnName(BindingAddress.Parse(url).Host));

    /// <summary>An address that phones in the same network can use, when one of these lets them in.</summary>
    public static string? AddressFor(IEnumerable<string> urls, IPAddress own)
    {
        var url = urls.Select(BindingAddress.Parse).FirstOrDefault(u => !Desk.IsOwnName(u.Host));
        return url is null ? null : $"{url.Scheme}://{own}:{url.Port}";
    }
}
