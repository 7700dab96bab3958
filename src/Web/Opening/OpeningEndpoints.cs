using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;
using Goodsheet.App.Files;
using Goodsheet.App.Opening;

namespace Goodsheet.Web.Opening;

/// <summary>Several files at once, and empty lists to fill in.</summary>
public static class OpeningEndpoints
{
    private const long LargestPost = 500_000_000;
    private const int MostFiles = 60;
    private const int LongestName = 80;

    public static void MapOpening(this IEndpointRouteBuilder app)
    {
        app.MapPost("/opening/files", ReceiveAsync).WithMetadata(new RequestSizeLimitAttribute(LargestPost)).DisableAntiforgery();
        app.MapGet("/opening/lists/{kind}.csv", (OpeningKind kind) =>
            TypedResults.File(Encoding.UTF8.GetBytes(BringInRoom.Heading(kind) + "\n"), "text/csv; charset=utf-8", $"{kind.ToString().ToLowerInvariant()}.csv"));
    }

    // Each file is kept by its content; the page then opens with their hashes and names, and looks at them.
    private static async Task<Results<RedirectHttpResult, BadRequest<string>>> ReceiveAsync(HttpRequest request, FileShelf files, CancellationToken cancel)
    {
        var boundary = MediaTypeHeaderValue.TryParse(request.ContentType, out var type) ? type.Boundary.Value?.Trim('"') : null;
        if (boundary is null)
        {
            return TypedResults.BadRequest("Send the files by the form of the page.");
        }

        var (address, count) = (new StringBuilder("/opening?"), 0);
        var parts = new MultipartReader(boundary, request.Body, 1 << 16);
        while (await parts.ReadNextSectionAsync(cancel) is { } part && count < MostFiles)
        {
            if (part.AsFileSection() is { FileStream: { } content, FileName.Length: > 0 } file)
            {
                var name = Path.GetFileName(file.FileName.Replace('\\', '/'));
                address.Append("f=").Append((await files.KeepAsync(content, cancel)).Hash).Append('.').Append(Uri.EscapeDataString(name.Length > LongestName ? name[^LongestName..] : name)).Append('&');
                count++;
            }
            else if (part.AsFormDataSection() is { Name: "mark" } mark && Enum.TryParse<DecimalMark>(await mark.GetValueAsync(cancel), out var stated))
            {
                address.Append("mark=").Append(stated).Append('&');
            }
        }

        return TypedResults.LocalRedirect(address.ToString().TrimEnd('&', '?'));
    }
}
