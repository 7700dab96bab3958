using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Care;

namespace Goodsheet.Web.Care;

/// <summary>The readings of the air as a file.</summary>
public static class CareEndpoints
{
    public static void MapCare(this IEndpointRouteBuilder app) => app.MapGet("/care/air.csv", async (ShowAir show, CancellationToken cancel) =>
        TypedResults.File(Encoding.UTF8.GetBytes(await show.CsvAsync(cancel)), "text/csv; charset=utf-8", "air.csv"));
}
