using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Goodsheet.App.Control;
using Goodsheet.App.Work;
using Goodsheet.Web.People;

namespace Goodsheet.Web.Control;

/// <summary>The numbers behind the control chart, and the correction that a page asks for.</summary>
public static class ControlEndpoints
{
    public static void MapControl(this IEndpointRouteBuilder app)
    {
        app.MapGet("/control/{code}/strips.csv", CsvAsync);
        app.MapPost("/strips/{number:int}/correct", CorrectAsync).DisableAntiforgery();
    }

    private static async Task<Results<FileContentHttpResult, NotFound>> CsvAsync(string code, ShowControl show, CancellationToken cancel)
    {
        if (await show.RunAsync(new(code), cancel) is not { } all)
        {
            return TypedResults.NotFound();
        }

        var text = new StringBuilder("strip,read at,patches,mean dE00,largest dE00,shift L*,shift a*,shift b*,alone,running,shape,percent of limit,over\r\n");
        foreach (var (s, p) in all.Strips.Select(s => (s.Strip, s.Point)))
        {
            text.Append(CultureInfo.InvariantCulture, $"{s.Number},{s.At:yyyy-MM-ddTHH:mmZ},{s.Patches},{s.MeanError:0.000},{s.MaxError:0.000},{p.Shift.L:0.000},{p.Shift.A:0.000},{p.Shift.B:0.000},{p.Alone:0.000},{p.Running:0.000},{p.Shape:0.000},{100 * p.Reach:0.0},{(p.Alarms is 0 ? "no" : "yes")}\r\n");
        }

        return TypedResults.File(Encoding.UTF8.GetBytes(text.ToString()), "text/csv; charset=utf-8", "strips.csv");
    }

    private static async Task<RedirectHttpResult> CorrectAsync(int number, WorkDesk desk, Visitor visitor, CancellationToken cancel) =>
        TypedResults.LocalRedirect($"/work/{await desk.AskAsync<CorrectRoomProfile>($"Correct the profile from strip {number}", visitor.Name, cancel)}?then=/profiles");
}
