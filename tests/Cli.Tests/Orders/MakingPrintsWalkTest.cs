using System.Globalization;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Goodsheet.Cli.Tests.Orders;

/// <summary>How prints are laid, tried on a strip, parted, proved small and saved from want of paper: in the demonstration, in a real browser, each page seen at both widths.</summary>
public sealed partial class MakingPrintsWalkTest(Browser browser, MadeDemo demo)
{
    private const int Desk = 1440;
    private const int Phone = 390;
    private const float LongWork = 180_000; // ms: the machine may be busy

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Prints_are_laid_by_hand_dragged_filled_up_printed_and_their_offcuts_kept()
    {
        await using var room = await demo.OpenCopyAsync(Cancel);
        var page = await browser.OpenAsync(room.Address, Desk);
        await page.GotoAsync("/runs");
        await page.Locator("li.slip", new() { HasText = "ready to begin" }).Filter(new() { HasText = "roll 610" }).GetByRole(AriaRole.Link).ClickAsync();
        var run = page.Url;
        await page.GetByRole(AriaRole.Link, new() { Name = "Change the layout" }).ClickAsync();
        await SeeAsync(page, "layout");

        // With the mouse: it goes where it is dropped, is kept there, and the page stays where it was.
        await page.SetViewportSizeAsync(Desk, 900);
        await DragAsync(page, "1/1", 0, 260);
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Moved to");
        await Expect(page.GetByText("kept here")).ToHaveCountAsync(1);
        await OffersAsItLiesAsync(page);
        await SeeAsync(page, "layout-dragged");

        // Onto another that is kept: refused with the reason, and nothing is changed.
        await page.SetViewportSizeAsync(Desk, 900);
        var free = page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Keep here, .$") }).First;
        await free.FocusAsync();
        await page.Keyboard.PressAsync("Enter"); // without a mouse, too
        await Expect(page.GetByText("kept here")).ToHaveCountAsync(2);
        var steps = await page.GetByRole(AriaRole.Button, new() { Name = "Back to this" }).CountAsync();
        await OntoAsync(page);
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Nothing was changed");
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Back to this" })).ToHaveCountAsync(steps);
        await SeeAsync(page, "layout-refused");

        // By a finger that holds it until it lifts, on the phone.
        await HoldAsync(page, "1/1", 40);
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Moved to");

        // By typing; half filled it says what is missing.
        await page.GetByLabel("mm from the left edge").FillAsync("");
        await page.GetByRole(AriaRole.Button, new() { Name = "Move it there" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Say the place in mm");
        await page.GetByRole(AriaRole.Button, new() { Name = "Back to this: As it was laid at first" }).ClickAsync();
        await Expect(page.GetByText("kept here")).ToHaveCountAsync(0);

        // What the room says of knife and edges; a roll's end that would be too short is filled.
        await page.GetByRole(AriaRole.Link, new() { Name = "How this room lays prints" }).ClickAsync();
        await page.GetByLabel("A roll shorter than this cannot be loaded again, mm").FillAsync("-1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Nothing was changed");
        await page.GetByLabel("A roll shorter than this cannot be loaded again, mm").FillAsync("15000");
        await page.GetByLabel("Offcuts are kept from this shorter side on, mm").FillAsync("40");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Kept.");
        await SeeAsync(page, "layout-settings");
        await page.GotoAsync($"{run}/layout");
        await page.GetByRole(AriaRole.Button, new() { Name = "Lay these with it" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("No print is chosen");
        await page.GetByLabel("Test wedge").FillAsync("12"); // more than wait: said beside the field, with both numbers
        await page.GetByRole(AriaRole.Button, new() { Name = "Lay these with it" }).ClickAsync();
        await Expect(page.GetByText("You asked for 12, and 4 wait.")).ToBeVisibleAsync();
        await Expect(page.GetByLabel("Test wedge")).ToHaveAttributeAsync("aria-invalid", "true");
        await SeeAsync(page, "layout-too-many");
        await page.GetByLabel("Test wedge").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Lay these with it" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("2 more prints are laid with it");
        await SeeAsync(page, "layout-filled");

        // The cut list goes to the trimmer on paper; once paper is drawn nothing moves any more.
        var card = await page.APIRequest.GetAsync($"{run}/card.pdf");
        Assert.Equal((200, "application/pdf"), (card.Status, card.Headers["content-type"]));
        await page.GotoAsync(run);
        await page.GetByRole(AriaRole.Button, new() { Name = "The paper is drawn, begin" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Record" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Status).First).ToContainTextAsync("0 wasted");
        await SeeAsync(page, "run-offcuts");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put them on the shelf" }).ClickAsync();
        await Expect(page.GetByText("Put away:")).ToBeVisibleAsync();
        await page.GotoAsync($"{run}/layout");
        await Expect(page.Locator("[data-laid]")).ToHaveCountAsync(0);
        await SeeAsync(page, "layout-closed");
    }

    [Fact]
    public async Task A_large_print_waits_for_its_strip_a_print_is_parted_into_tiles_and_proved_small_and_the_want_of_paper_has_ways_out()
    {
        await using var room = await demo.OpenCopyAsync(Cancel);
        var page = await browser.OpenAsync(room.Address, Desk);
        await page.GotoAsync("/plan");
        await Expect(page.GetByText("begins when its test strip")).ToBeVisibleAsync();
        await SeeAsync(page, "plan-strip");
        var verb = await OneVerb.RunAsync(["plan", "--room", room.Folder]);
        Assert.Contains("waits for its test strip", verb.Output, StringComparison.Ordinal);
        await page.Locator("summary", new() { HasText = "Run by run" }).ClickAsync(); // on the phone it is folded
        await page.GetByRole(AriaRole.Link, new() { Name = "Strip of order" }).ClickAsync();
        var strip = page.Url;
        var order = strip[..strip.LastIndexOf("/1/", StringComparison.Ordinal)];
        await SeeAsync(page, "strip-empty");

        // The whole is prepared and laid; its card stops it until somebody has looked at a strip.
        await page.GotoAsync(order);
        await page.GetByRole(AriaRole.Button, new() { Name = "Prepare the file" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Done" })).ToBeVisibleAsync(new() { Timeout = LongWork });
        await page.GotoAsync(order);
        await page.GetByRole(AriaRole.Button, new() { Name = "Issue the run card" }).ClickAsync();
        await Expect(page.GetByText("wants a test strip first")).ToBeVisibleAsync();
        var run = page.Url;
        await SeeAsync(page, "run-waits-for-strip");

        await page.GetByRole(AriaRole.Link, new() { Name = "Its test strip" }).ClickAsync();
        await page.GetByLabel("Wide, mm").FillAsync("700");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show it there" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the strip" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("A test strip is 10 to 600 mm");
        await page.GotoAsync(strip);
        await page.GetByRole(AriaRole.Button, new() { Name = "Put the strip at a place" }).Locator("visible=true").ClickAsync(new() { Position = new() { X = 40, Y = 40 } });
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the strip" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Done" })).ToBeVisibleAsync(new() { Timeout = LongWork });
        await page.GetByRole(AriaRole.Link, new() { Name = "Go on" }).ClickAsync();
        await Expect(page.GetByText("not printed", new() { Exact = true })).ToBeVisibleAsync();
        var tiff = await page.APIRequest.GetAsync($"{order}/1/strips/1.tif");
        Assert.Equal((200, "image/tiff"), (tiff.Status, tiff.Headers["content-type"]));
        await page.GetByLabel("Sheets, or m of roll").FillAsync("0");
        await page.GetByRole(AriaRole.Button, new() { Name = "Book it as a test" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToBeVisibleAsync();
        await page.GetByLabel("Sheets, or m of roll").FillAsync("1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Book it as a test" }).ClickAsync();
        await SeeAsync(page, "strip-printed");
        await page.GetByRole(AriaRole.Button, new() { Name = "Change", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("What is to be changed?");
        await page.GetByRole(AriaRole.Button, new() { Name = "Go on", Exact = true }).ClickAsync();
        await Expect(page.GetByText("says: go on")).ToBeVisibleAsync();
        await SeeAsync(page, "strip-go-on");
        await page.GotoAsync(run);
        await Expect(page.GetByText("looked at it: go on")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "The paper is drawn, begin" })).ToBeVisibleAsync();

        await TilesAsync(page, order);
        await ProofsAsync(page, order);
        await NoPaperAsync(page, order);
    }

    private static async Task TilesAsync(IPage page, string order)
    {
        await page.GotoAsync($"{order}/1/tiles");
        await SeeAsync(page, "tiles-whole");
        await page.GetByLabel("On", new() { Exact = true }).SelectOptionAsync("A3+");
        await page.GetByLabel("Overlap, mm").FillAsync("500");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show it so" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToBeVisibleAsync();
        await SeeAsync(page, "tiles-refused");
        await page.GetByLabel("Overlap, mm").FillAsync("15");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show it so" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the tiles" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Done" })).ToBeVisibleAsync(new() { Timeout = LongWork });
        await page.GetByRole(AriaRole.Link, new() { Name = "Go on" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "all as PDF" })).ToBeVisibleAsync();
        var pdf = await page.APIRequest.GetAsync($"{order}/1/tiles/1.pdf");
        Assert.Equal((200, "application/pdf"), (pdf.Status, pdf.Headers["content-type"]));
        await SeeAsync(page, "tiles-made");
    }

    private static async Task ProofsAsync(IPage page, string order)
    {
        await page.GotoAsync($"{order}/1/proofs");
        await SeeAsync(page, "proofs-empty");
        await page.GetByLabel("the papers of the line-up").CheckAsync();
        await page.GetByLabel("On", new() { Exact = true }).SelectOptionAsync("A3+");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the sheet" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Done" })).ToBeVisibleAsync(new() { Timeout = LongWork });
        await page.GetByRole(AriaRole.Link, new() { Name = "Go on" }).ClickAsync();
        Assert.True(await page.GetByAltText("The sheet:").EvaluateAsync<bool>("i => (i.loading = 'eager', i.decode().then(() => i.naturalWidth > 0))"));
        await SeeAsync(page, "proofs-made");
        foreach (var (kind, type) in new[] { ("tif", "image/tiff"), ("pdf", "application/pdf") })
        {
            var file = await page.APIRequest.GetAsync($"{order}/1/proofs/1.{kind}");
            Assert.Equal((200, type), (file.Status, file.Headers["content-type"]));
        }
    }

    // A paper without a profile to be trusted says so on each page; more copies than there is paper lead to the ways out.
    private static async Task NoPaperAsync(IPage page, string order)
    {
        var canvas = order[..(order.LastIndexOf('/') + 1)] + (int.Parse(order[(order.LastIndexOf('/') + 1)..], CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture);
        foreach (var kind in (string[])["strip", "proofs"])
        {
            await page.GotoAsync($"{canvas}/1/{kind}");
            await Expect(page.GetByText("no trusted profile").First).ToBeVisibleAsync();
            await SeeAsync(page, $"{kind}-no-profile");
        }

        await page.GotoAsync($"{canvas}/1/change");
        await page.GetByLabel("Copies").FillAsync("90");
        await SeeAsync(page, "print-change");
        await page.GetByRole(AriaRole.Button, new() { Name = "Change it" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "What can be done" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Tell the client" })).ToBeVisibleAsync();
        await SeeAsync(page, "no-paper-canvas");
        await page.GotoAsync($"{order}/no-paper");
        await SeeAsync(page, "no-paper-none");
    }

    private static async Task SeeAsync(IPage page, string name)
    {
        foreach (var width in (int[])[Desk, Phone])
        {
            await page.SetViewportSizeAsync(width, 900);
            await Browser.SeeAsync(page, name, width);
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width, $"{name} is wider than {width}");
        }
    }

    private static async Task DragAsync(IPage page, string print, float right, float down)
    {
        var box = await BoxAsync(page, print);
        await page.Mouse.MoveAsync(box.X + (box.Width / 2), box.Y + (box.Height / 2));
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(box.X + (box.Width / 2) + right, box.Y + (box.Height / 2) + down, new() { Steps = 5 });
        await page.Mouse.UpAsync();
    }

    // The first kept print is dropped on the middle of the other kept one: nearer than an edge it snaps to.
    private static async Task OntoAsync(IPage page)
    {
        var kept = page.Locator("[data-laid]", new() { HasText = "kept" });
        var one = (await kept.Nth(0).BoundingBoxAsync())!;
        var other = (await kept.Nth(1).BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(one.X + (one.Width / 2), one.Y + (one.Height / 2));
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(other.X + (other.Width / 2) + 20, other.Y + (other.Height / 2) + 20, new() { Steps = 5 });
        await page.Mouse.UpAsync();
    }

    private static async Task HoldAsync(IPage page, string print, float down)
    {
        var box = await BoxAsync(page, print);
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        var finger = await page.Context.NewCDPSessionAsync(page);
        await TouchAsync(finger, "touchStart", x, y);
        await Expect(page.Locator("svg[data-carries]")).ToHaveCountAsync(1); // held until it lifts
        await TouchAsync(finger, "touchMove", x, y + (down / 2));
        await TouchAsync(finger, "touchMove", x, y + down);
        await TouchAsync(finger, "touchEnd");
    }

    private static async Task TouchAsync(ICDPSession finger, string type, params float[] at) => await finger.SendAsync("Input.dispatchTouchEvent", new()
    {
        ["type"] = type,
        ["touchPoints"] = at.Length == 0 ? Array.Empty<object>() : [new { x = at[0], y = at[1] }],
    });

    private static async Task<LocatorBoundingBoxResult> BoxAsync(IPage page, string print)
    {
        var one = page.Locator($"[data-laid='{print}']");
        await one.ScrollIntoViewIfNeededAsync();
        return (await one.BoundingBoxAsync())!;
    }
}
