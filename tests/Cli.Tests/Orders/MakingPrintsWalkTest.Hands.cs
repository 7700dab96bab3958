using System.Globalization;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Goodsheet.Cli.Tests.Orders;

/// <summary>What hands do: prints carried from sheet to sheet with mouse and finger, and the plan on a phone beside the printer.</summary>
public sealed partial class MakingPrintsWalkTest
{
    [Fact]
    public async Task A_print_is_dragged_onto_another_sheet_also_one_out_of_sight_and_put_back_by_Esc()
    {
        await using var room = await demo.OpenCopyAsync(Cancel);
        var page = await browser.OpenAsync(room.Address, Desk);
        await OnTwoSheetsAsync(page);
        await page.SetViewportSizeAsync(Desk, 900);
        var run = page.Url;
        await Expect(page.Locator("svg[data-sheet]")).ToHaveCountAsync(2);

        // Esc while it is carried: it lies where it lay, and letting go afterwards sends nothing.
        var print = page.Locator("[data-laid='1/1']");
        var box = await BoxAsync(page, "1/1");
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x + 40, y + 40, new() { Steps = 4 });
        await Expect(page.Locator("svg[data-carries]")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("Escape");
        await Expect(page.Locator("svg[data-carries]")).ToHaveCountAsync(0);
        Assert.Null(await print.GetAttributeAsync("transform"));
        await page.Mouse.MoveAsync(x + 80, y + 80, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        Assert.Equal(0, await page.GetByRole(AriaRole.Status).CountAsync());
        Assert.Equal(box.Y, (await print.BoundingBoxAsync())!.Y, 1.0);

        // In a low window the other sheet is out of sight: held at the lower rim, the page goes on until it is there.
        await page.SetViewportSizeAsync(Desk, 560);
        await CarryAsync(page, "1/1", "svg[data-sheet='2']", 560, 0.75f);
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Moved to sheet 2");
        await Expect(page.Locator("[data-laid='2/2']")).ToHaveCountAsync(1);
        await SeeAsync(page, "layout-other-sheet");
        await page.GetByRole(AriaRole.Button, new() { Name = "Back to this: As it was laid at first" }).ClickAsync();
        await Expect(page.Locator("[data-laid='1/2']")).ToHaveCountAsync(1);

        // By a finger on the phone, the same way.
        await page.SetViewportSizeAsync(Phone, 760);
        await page.GotoAsync(run);
        await FingerAsync(page, "1/1", "svg[data-sheet='2']", 760);
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Moved to sheet 2");
    }

    [Fact]
    public async Task On_the_phone_the_plan_says_now_and_next_for_each_printer_and_the_rest_is_folded()
    {
        await using var room = await demo.OpenCopyAsync(Cancel);
        var page = await browser.OpenAsync(room.Address, Phone);
        await page.GotoAsync("/plan");
        var heron = page.Locator(".phone section", new() { HasText = "Heron" });
        await Expect(heron.GetByText("printing").First).ToBeVisibleAsync(); // and how late, at some hours of making the demonstration
        await Expect(heron.GetByRole(AriaRole.Listitem)).ToHaveCountAsync(2);
        await Expect(page.Locator("table")).ToBeHiddenAsync();
        await SeeAsync(page, "plan");
        await page.SetViewportSizeAsync(Phone, 900);
        Assert.InRange(await page.EvaluateAsync<int>("document.documentElement.scrollHeight"), 1, 2_400); // it was 4,800

        // By the keyboard, without a script: headings are there for those who go by them, and open what they name.
        var fold = page.Locator("summary", new() { HasText = "Run by run" });
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Run by run" })).ToBeVisibleAsync();
        await fold.FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("table")).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "plan-open", Phone);

        await page.SetViewportSizeAsync(Desk, 900);
        await page.ReloadAsync();
        await Expect(page.Locator("table")).ToBeVisibleAsync();
        await Expect(page.Locator("svg, .lanes").First).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Why in this order" })).ToHaveCountAsync(1);
    }

    // An order of three that take two sheets of A2: its file made, its run planned, its layout open.
    private static async Task OnTwoSheetsAsync(IPage page)
    {
        await page.GotoAsync("/orders");
        await page.Locator("li", new() { HasText = "to print" }).Filter(new() { HasText = "Low water, nowhere, 1 ×" }).GetByRole(AriaRole.Link).ClickAsync();
        var order = page.Url;
        await page.GotoAsync($"{order}/1/change");
        await page.GetByLabel("Copies").FillAsync("3");
        await page.GetByLabel("Width, mm").FillAsync("300");
        await page.GetByLabel("Height, mm").FillAsync("200");
        await page.GetByLabel("White border, mm").FillAsync("30");
        await page.GetByRole(AriaRole.Button, new() { Name = "Change it" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Prepare the file" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Prepare the file" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Done" })).ToBeVisibleAsync(new() { Timeout = LongWork });
        await page.GotoAsync(order);
        var lot = page.Locator("#lot option:not([disabled])", new() { HasText = "A2" }).First;
        await page.Locator("#lot").SelectOptionAsync((await lot.GetAttributeAsync("value"))!);
        await page.GetByRole(AriaRole.Button, new() { Name = "Issue the run card" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Change the layout" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Move a print" })).ToBeVisibleAsync();
    }

    private static async Task CarryAsync(IPage page, string print, string sheet, int high, float down)
    {
        var box = await BoxAsync(page, print);
        var x = box.X + (box.Width / 2);
        await page.Mouse.MoveAsync(x, box.Y + (box.Height / 2));
        await page.Mouse.DownAsync();
        var there = await InSightAsync(page, sheet, high, down, y => page.Mouse.MoveAsync(x, y, new() { Steps = 6 }));
        await page.Mouse.MoveAsync(there.X + (there.Width / 2), there.Y + (there.Height * down), new() { Steps = 6 });
        await page.Mouse.UpAsync();
    }

    // Held at a rim until the place on the sheet is in sight, then away from it so that the page stands: only then is it measured.
    private static async Task<LocatorBoundingBoxResult> InSightAsync(IPage page, string sheet, int high, float down, Func<float, Task> move)
    {
        for (var i = 0; i < 100; i++)
        {
            var box = await PlaceAsync();
            for (var j = 0; j < 100 && !IsSeen(box); j++) // tenths of a second: a busy machine is slow, not broken
            {
                await move(Middle(box) > high / 2 ? high - 10 : 10);
                await page.WaitForTimeoutAsync(100);
                box = await PlaceAsync();
            }

            await move(high / 2);
            await page.WaitForTimeoutAsync(200);
            box = await PlaceAsync();
            if (IsSeen(box))
            {
                return box;
            }
        }

        throw new InvalidOperationException("The other sheet never came into sight.");

        async Task<LocatorBoundingBoxResult> PlaceAsync() => (await page.Locator(sheet).BoundingBoxAsync())!;
        float Middle(LocatorBoundingBoxResult box) => box.Y + (box.Height * down);
        bool IsSeen(LocatorBoundingBoxResult box) => Middle(box) > 80 && Middle(box) < high - 80;
    }

    private static async Task FingerAsync(IPage page, string print, string sheet, int high)
    {
        const float Down = 0.75f;
        var box = await BoxAsync(page, print);
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        var finger = await page.Context.NewCDPSessionAsync(page);
        await TouchAsync(finger, "touchStart", x, y);
        await Expect(page.Locator("svg[data-carries]")).ToHaveCountAsync(1); // held until it lifts
        await TouchAsync(finger, "touchMove", x, y + 20);
        var there = await InSightAsync(page, sheet, high, Down, at => TouchAsync(finger, "touchMove", x, at));
        await TouchAsync(finger, "touchMove", there.X + (there.Width / 2), there.Y + (there.Height * Down));
        await TouchAsync(finger, "touchEnd");
    }

    // The form to move a print names one that is drawn, where it is drawn: after a change, too.
    private static async Task OffersAsItLiesAsync(IPage page)
    {
        var print = page.Locator($"[data-laid='{await page.GetByLabel("Which").InputValueAsync()}']");
        foreach (var (place, label) in new[] { ("data-x", "mm from the left edge"), ("data-y", "mm from the leading edge") })
        {
            var (drawn, said) = (await print.GetAttributeAsync(place), await page.GetByLabel(label).InputValueAsync());
            Assert.Equal(double.Parse(drawn!, CultureInfo.InvariantCulture), double.Parse(said, CultureInfo.InvariantCulture), 0.06); // the field says tenths
        }
    }
}
