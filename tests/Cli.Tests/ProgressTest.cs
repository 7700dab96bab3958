using System.Runtime.CompilerServices;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Goodsheet.Cli.Tests;

/// <summary>A page that follows long work is drawn anew at its end, but never over what its reader does at that moment.</summary>
public sealed class ProgressTest(Browser browser)
{
    private const string Room = "http://room.invented/";
    private const string End = "document.body.insertAdjacentHTML('beforeend', '<work-progress events=/events><span></span><progress></progress></work-progress>')";
    private const int Patience = 20_000; // ms
    private const int Moment = 1_000;

    private readonly TaskCompletionSource told = new();

    [Fact]
    public async Task Work_that_ends_draws_the_page_anew()
    {
        var page = await OpenAsync();
        var drawn = page.WaitForRequestAsync(Room);
        await page.EvaluateAsync(End);
        await drawn;
    }

    [Fact]
    public async Task Work_that_ends_lets_a_page_come_that_was_asked_for()
    {
        var page = await OpenAsync();
        await page.RouteAsync($"{Room}next", async route =>
        {
            await Task.WhenAny(told.Task, Task.Delay(Patience));
            await Task.Delay(Moment); // the page has heard it by then
            await route.FulfillAsync(new() { ContentType = "text/html", Body = "<!DOCTYPE html><h1>The next page</h1>" });
        });
        await page.EvaluateAsync($"document.querySelector('a').click(); setTimeout(() => {End}, 200)");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "The next page" })).ToBeVisibleAsync();
        Assert.True(told.Task.IsCompleted);
    }

    [Fact]
    public async Task Work_that_ends_leaves_what_is_written()
    {
        var page = await OpenAsync();
        await page.GetByLabel("Note").FillAsync("half a sentence");
        await page.EvaluateAsync(End);
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "Done: show it" })).ToBeVisibleAsync();
        await Expect(page.GetByLabel("Note")).ToHaveValueAsync("half a sentence");
    }

    // A page of nothing but the room's own script.
    private async Task<IPage> OpenAsync()
    {
        var page = await browser.OpenAsync(new(Room), 390);
        await page.RouteAsync(Room, route => route.FulfillAsync(new()
        {
            ContentType = "text/html",
            Body = "<!DOCTYPE html><title>Work</title><script type=module src=/room.js></script><a href=/next>Next</a><label>Note <input></label>",
        }));
        await page.RouteAsync($"{Room}room.js", route => route.FulfillAsync(new() { Path = Path.Combine(Here(), "../../src/Web/wwwroot/room.js"), ContentType = "text/javascript" }));
        await page.RouteAsync($"{Room}events", async route =>
        {
            await route.FulfillAsync(new() { ContentType = "text/event-stream", Body = "event: progress\ndata: ended\n\n" });
            told.TrySetResult();
        });
        await page.GotoAsync("/");
        return page;
    }

    private static string Here([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
