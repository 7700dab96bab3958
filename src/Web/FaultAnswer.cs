using System.Security.Cryptography;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Goodsheet.App.Files;
using Goodsheet.Web.Api;

namespace Goodsheet.Web;

/// <summary>What the room says when a page cannot be given: words of its own for each kind, and nothing secret.</summary>
/// <remarks>
/// The page is drawn in place and not by running the request again at another address: a form sent to a page
/// that failed must not be sent to a second one.
/// </remarks>
internal static partial class FaultAnswer
{
    private const int ComesBroken = unchecked((int)0x80131620); // no number of the system's: what was sent ended too early

    public static void UseFaultAnswers(this WebApplication app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandler = FaultAsync,
            StatusCodeSelector = StatusOf,
            AllowStatusCode404Response = true,
            SuppressDiagnosticsCallback = _ => true, // written down below, with its reference
        });
        app.UseStatusCodePages(status => SayAsync(status.HttpContext, reference: null));
        app.Use(async (http, next) =>
        {
            await next(http);
            if (http.Response is { StatusCode: StatusCodes.Status400BadRequest, HasStarted: false }
                && http.GetEndpoint()?.Metadata.GetMetadata<ComponentTypeMetadata>() is not null)
            {
                http.Response.ContentType = null; // a form the framework refused: it named a type and wrote nothing
            }
        });
    }

    private static int StatusOf(Exception e) => e switch
    {
        BadHttpRequestException refused => refused.StatusCode,
        InvalidDataException => StatusCodes.Status400BadRequest, // a form or its parts are not as they are written
        _ when e.GetType() == typeof(IOException) && e.HResult == ComesBroken => StatusCodes.Status400BadRequest,
        _ when DiskFull.IsCauseOf(e) => StatusCodes.Status507InsufficientStorage,
        _ => StatusCodes.Status500InternalServerError,
    };

    private static async Task FaultAsync(HttpContext http)
    {
        var fault = http.Features.Get<IExceptionHandlerFeature>()!.Error;
        string? reference = null;
        if (http.Response.StatusCode >= StatusCodes.Status500InternalServerError)
        {
            reference = Convert.ToHexString(RandomNumberGenerator.GetBytes(4));
            var log = http.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger("Goodsheet");
            WriteDown(log, fault, reference, http.Request.Method, http.Request.Path);
        }

        await SayAsync(http, reference);
    }

    private static async Task SayAsync(HttpContext http, string? reference)
    {
        var before = http.RequestServices;
        await using var scope = before.GetRequiredService<IServiceScopeFactory>().CreateAsyncScope(); // the page that failed has used up its own
        try
        {
            http.RequestServices = scope.ServiceProvider;
            var status = http.Response.StatusCode;
            http.Response.Clear(); // a form that was refused has named headers already
            http.Response.StatusCode = status;
            http.SetEndpoint(null);
            if (ApiDoor.IsApi(http))
            {
                await http.Response.WriteAsJsonAsync(ApiDoor.Says(status, reference), http.RequestAborted);
                return;
            }

            await new RazorComponentResult<FaultPage>(new Dictionary<string, object?>
            {
                [nameof(FaultPage.Status)] = status,
                [nameof(FaultPage.Reference)] = reference,
            }).ExecuteAsync(http);
        }
        finally
        {
            http.RequestServices = before;
        }
    }

    // The path without its query: a query can carry a code or a name.
    [LoggerMessage(1, LogLevel.Error, "Fault {Reference} at {Method} {Path}")]
    private static partial void WriteDown(ILogger log, Exception fault, string reference, string method, PathString path);
}
