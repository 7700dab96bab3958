using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Goodsheet.App.Settings;

namespace Goodsheet.Web.Settings;

/// <summary>Writes and reads the numbers of a page as the room does.</summary>
public static class RoomNumbersOnPages
{
    public static IApplicationBuilder UseRoomNumbers(this IApplicationBuilder app)
    {
        var numbers = app.ApplicationServices.GetRequiredService<RoomNumbers>();
        return app.Use((http, next) =>
        {
            CultureInfo.CurrentCulture = numbers.Culture; // of this request only: it flows with it
            return next(http);
        });
    }
}
