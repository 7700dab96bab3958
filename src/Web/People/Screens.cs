using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Goodsheet.Web.People;

/// <summary>The screen that a request comes from.</summary>
internal static class Screens
{
    /// <summary>A word for the list, until somebody gives a better one.</summary>
    public static string Kind(HttpContext http) =>
        http.Request.Headers.UserAgent.ToString().Contains("Mobi", StringComparison.Ordinal) ? "a phone" : "a screen";

    /// <summary>Lets this screen in until then.</summary>
    public static void Admit(this HttpContext http, string token, DateTimeOffset until) =>
        http.Response.Cookies.Append(Visitor.DeviceCookie, token, new()
        {
            MaxAge = until - http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow(),
            SameSite = SameSiteMode.Lax, // a phone opens the room from its camera
            HttpOnly = true,
            Secure = http.Request.IsHttps,
            IsEssential = true,
        });
}
