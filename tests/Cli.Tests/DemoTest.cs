using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;

namespace Goodsheet.Cli.Tests;

/// <summary>The demonstration as somebody who has just cloned the project meets it.</summary>
public sealed partial class DemoTest(MadeDemo demo)
{
    private const int MostPages = 3_000; // asked for; more come of an address that makes itself anew
    private const int MostAlike = 12;
    private const string Marked = "Demonstration room: everything in it is invented";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_link_of_every_page_leads_somewhere_and_every_page_says_that_it_is_invented()
    {
        await using var room = await demo.OpenCopyAsync(Cancel);
        using var http = new HttpClient(new HttpClientHandler { AllowAutoRedirect = true }) { BaseAddress = room.Address };
        var (seen, next, wrong) = (new HashSet<string> { "/" }, new Queue<string>(["/"]), new List<string>());
        var alike = new Dictionary<string, int>();
        var asked = 0;
        while (next.TryDequeue(out var path))
        {
            asked++;
            using var answer = await http.GetAsync(path, HttpCompletionOption.ResponseHeadersRead, Cancel);
            if (answer.StatusCode is not HttpStatusCode.OK)
            {
                wrong.Add($"{(int)answer.StatusCode} {path}");
            }

            if (answer.Content.Headers.ContentType?.MediaType != "text/html")
            {
                continue;
            }

            var html = await answer.Content.ReadAsStringAsync(Cancel);
            if (!html.Contains(Marked, StringComparison.Ordinal))
            {
                wrong.Add($"not marked as invented: {path}");
            }

            if (NotWords().IsMatch(html))
            {
                wrong.Add($"says what nobody wrote: {path}");
            }

            foreach (var link in Link().Matches(html).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value).Split('#')[0]))
            {
                if (link.StartsWith('/') && seen.Add(link) && IsWorthFollowing(link, alike))
                {
                    next.Enqueue(link);
                }
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.InRange(asked, 200, MostPages);
    }

    // What a proof can be shown like is hundreds of addresses for each print, each with a picture to render: some of each kind will do.
    private static bool IsWorthFollowing(string link, Dictionary<string, int> alike)
    {
        if (!link.Contains('?') && !link.EndsWith(".jpg", StringComparison.Ordinal))
        {
            return true;
        }

        var kind = Number().Replace(link.Split('?')[0], "0");
        alike[kind] = alike.GetValueOrDefault(kind) + 1;
        return alike[kind] <= MostAlike;
    }

    [Fact]
    public async Task Killed_midway_it_leaves_no_room_and_the_next_opening_makes_one_which_then_opens_at_once()
    {
        await demo.MakeAsync(Cancel);
        Assert.Equal((false, 0), demo.Seen);
        var written = File.GetCreationTimeUtc(Path.Combine(demo.Folder, "room.db"));
        await using var third = await RunningRoom.OpenAsync(demo.Folder, demo: true, keep: true);
        Assert.Equal(written, File.GetCreationTimeUtc(Path.Combine(demo.Folder, "room.db")));
    }

    [Fact]
    public async Task It_is_not_put_into_a_folder_that_holds_something_else()
    {
        var folder = Directory.CreateTempSubdirectory("goodsheet-demo-");
        await File.WriteAllTextAsync(Path.Combine(folder.FullName, "letter.txt"), "mine", Cancel);
        using var process = Process.Start(new ProcessStartInfo(RunningRoom.Program, ["serve", "--demo", "--room", folder.FullName]) { RedirectStandardError = true })!;
        Assert.Contains("holds something else", await process.StandardError.ReadToEndAsync(Cancel), StringComparison.Ordinal);
        await process.WaitForExitAsync(Cancel);
        Assert.Equal(2, process.ExitCode);
        folder.Delete(recursive: true);
    }

    [GeneratedRegex("""(?:href|src)="([^"]*)"|action="(/shelf[^"?]*)" method="get""")]
    private static partial Regex Link();

    // Between tags or in a drawing's numbers: what stands for a form's own key may spell anything.
    [GeneratedRegex("""\.ToString\(|>[^<]*\bNaN\b|\b(?:d|x|y|cx|cy|points|transform|width|height|style)="[^"]*NaN""")]
    private static partial Regex NotWords();

    [GeneratedRegex("[0-9]+")]
    private static partial Regex Number();
}
