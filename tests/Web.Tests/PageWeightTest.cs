using System.Reflection;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Components;
using Goodsheet.App.Shelf;
using Goodsheet.App.Tests;
using Goodsheet.Room;

namespace Goodsheet.Web.Tests;

/// <summary>A page with all it is made of, as it goes over the wire, in a room with a full shelf.</summary>
public sealed partial class PageWeightTest
{
    private const int Heaviest = 250_000; // bytes, without pictures: three seconds on a poor phone line
    private const int Boxes = 150;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task No_page_is_too_heavy_for_a_phone_at_the_printer()
    {
        await using var room = await ServedRoom.OpenAsync();
        await room.Room.FurnishedAsync();
        string lot = "";
        for (var i = 0; i < Boxes; i++)
        {
            lot = (await room.Use<PutAway>().RunAsync(new(CommandId.New(), new("Mira"), FreshRoom.Cotton, FreshRoom.A2, 25, null), Cancel)).Value!.Lot.Value;
        }

        using var http = room.Browser();
        http.DefaultRequestHeaders.AcceptEncoding.ParseAdd("br, gzip"); // as browsers do; nothing is unpacked here
        var made = await MadeOfAsync(http);
        var pages = typeof(Shell).Assembly.GetTypes()
            .SelectMany(t => t.GetCustomAttributes<RouteAttribute>().Select(r => r.Template)).Where(t => !t.Contains('{', StringComparison.Ordinal))
            .Append($"/shelf/lots/{lot}").Append($"/papers/{FreshRoom.Cotton}").Order(StringComparer.Ordinal).ToList();
        Assert.InRange(pages.Count, 15, 500);
        foreach (var page in pages)
        {
            var answer = await http.GetAsync(page, Cancel);
            Assert.True(answer.IsSuccessStatusCode, $"{page}: {answer.StatusCode}");
            var weight = made + (await answer.Content.ReadAsByteArrayAsync(Cancel)).Length;
            Assert.True(weight <= Heaviest, $"{page} weighs {weight} bytes");
            TestContext.Current.TestOutputHelper?.WriteLine($"{weight} {page}");
        }
    }

    // Stylesheet, script, and every font the stylesheet names.
    private static async Task<long> MadeOfAsync(HttpClient http)
    {
        using var plain = new HttpClient { BaseAddress = http.BaseAddress };
        plain.DefaultRequestHeaders.Accept.ParseAdd("text/html");
        var page = await plain.GetStringAsync("/", Cancel);
        var linked = Link().Matches(page).Select(m => m.Groups[1].Value).Where(u => u.Contains("_content", StringComparison.Ordinal)).ToList();
        var sheet = await plain.GetStringAsync(linked.First(u => u.EndsWith(".css", StringComparison.Ordinal)), Cancel);
        linked.AddRange(Font().Matches(sheet).Select(m => $"_content/Goodsheet.Web/{m.Groups[1].Value}"));
        long all = 0;
        foreach (var part in linked.Distinct())
        {
            all += (await http.GetByteArrayAsync(part, Cancel)).Length;
        }

        return all;
    }

    [GeneratedRegex("""(?:href|src)="([^"]+)""")]
    private static partial Regex Link();

    [GeneratedRegex(@"url\((fonts/[^)]+)\)")]
    private static partial Regex Font();
}
