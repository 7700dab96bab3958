using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;
using Goodsheet.App.People;
using Goodsheet.Room.People;

namespace Goodsheet.Web.Api;

/// <summary>Lets in only programs that bring a key, before anything they send is read.</summary>
internal static class ApiDoor
{
    private const string Root = "/api";
    private const string Document = "/api/openapi.json";
    private const string Bringer = "goodsheet-key";
    private const string Scheme = "Bearer ";

    /// <summary>Requests of programs: they have a rate of their own.</summary>
    public static bool IsApi(HttpContext http) => http.Request.Path.StartsWithSegments(Root, StringComparison.OrdinalIgnoreCase);

    /// <summary>The name of the key that this request brought.</summary>
    public static PersonName Bearer(this HttpContext http) => (PersonName)http.Items[Bringer]!;

    public static IApplicationBuilder UseApiDoor(this IApplicationBuilder app) => app.Use(async (http, next) =>
    {
        if (!IsApi(http) || http.Request.Path.Equals(Document, StringComparison.OrdinalIgnoreCase))
        {
            await next(http);
            return;
        }

        var header = http.Request.Headers.Authorization.ToString();
        var bearer = header.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase)
            ? await http.RequestServices.GetRequiredService<ShowKeys>().BearerAsync(header[Scheme.Length..].Trim(), http.RequestAborted) : null;
        if (bearer is not { } name)
        {
            http.Response.StatusCode = StatusCodes.Status401Unauthorized;
            http.Response.Headers.WWWAuthenticate = "Bearer";
            await http.Response.WriteAsJsonAsync(new Problem("Bring a key of this room as Authorization: Bearer KEY. Keys are given out under People, Programs."), http.RequestAborted);
            return;
        }

        http.Items[Bringer] = name;
        await next(http);
    });

    public static async ValueTask SayTooManyAsync(HttpContext http, CancellationToken cancel)
    {
        http.Response.Headers.RetryAfter = "60";
        await http.Response.WriteAsJsonAsync(new Problem("Too many calls from one place: wait a minute."), cancel);
    }

    /// <summary>What a program is told where a person would be shown a page.</summary>
    public static Problem Says(int status, string? reference) => new(status switch
    {
        StatusCodes.Status400BadRequest => "This cannot be read: see the document at /api/openapi.json.",
        StatusCodes.Status404NotFound or StatusCodes.Status405MethodNotAllowed => "There is no such call: see the document at /api/openapi.json.",
        StatusCodes.Status413PayloadTooLarge => "That is larger than the room takes at once. Nothing was taken in.",
        StatusCodes.Status415UnsupportedMediaType => "Orders are sent as application/json.",
        StatusCodes.Status507InsufficientStorage => "The room’s disk is full. Nothing was taken in.",
        >= 500 => $"The room’s program failed here{(reference is null ? "" : $"; its log has the cause under {reference}")}. What was written before is safe.",
        _ => "Nothing was changed.",
    });

    public static void AddApiDocument(this IServiceCollection services) => services.AddOpenApi(options =>
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_0; // what client generators read
        options.ShouldInclude = call => call.RelativePath?.StartsWith("api/", StringComparison.Ordinal) is true;
        options.AddOperationTransformer((operation, _, _) =>
        {
            // Generators send a body as it is only where its own schema says that it is binary, not where it refers to one.
            if (operation.RequestBody?.Content?.TryGetValue("application/octet-stream", out var body) is true)
            {
                body.Schema = new OpenApiSchema { Type = JsonSchemaType.String, Format = "binary" };
            }

            return Task.CompletedTask;
        });
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info = new() { Title = "Goodsheet", Version = "1", Description = "Puts orders into a print room and says how they are. Lengths are in mm." };
            document.Servers?.Clear(); // the room is where it was asked
            document.Components ??= new();
            document.Components.Schemas?.Remove("IFormFile"); // nothing refers to it any more
            document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>
            {
                ["key"] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer", Description = "A key given out under People, Programs." },
            };
            document.Security = [new() { [new OpenApiSecuritySchemeReference("key", document)] = [] }];
            return Task.CompletedTask;
        });
    });
}
