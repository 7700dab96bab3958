using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Goodsheet.Cli.Tests.Shelf;

/// <summary>From a sheet of labels to a phone that draws, counts and moves at the box, in a real browser. What the code on a label says is held by LotLabelTest.</summary>
public sealed class PhoneAtTheShelfWalkTest(Browser browser)
{
    private const int Phone = 390;

    [Fact]
    public async Task A_label_opens_its_lot_on_a_phone_that_draws_counts_and_moves_and_says_no_in_words()
    {
        await using var room = await RunningRoom.OpenAsync();
        var desk = await browser.OpenAsync(room.Address, 1440);
        await desk.GotoAsync("/shelf/labels");
        await Browser.SeeAsync(desk, "labels-empty", 1440);
        await desk.GotoAsync("/people");
        await desk.GetByLabel("Name").FillAsync("Mira");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await desk.GetByRole(AriaRole.Link, new() { Name = "Mira" }).ClickAsync();
        await desk.GetByLabel("PIN or password").FillAsync("842196");
        await desk.GetByLabel("Once more").FillAsync("842196");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await desk.GotoAsync("/people/phones");
        await desk.GetByLabel("Address").FillAsync("http://192.0.2.20:5080");
        await desk.GetByRole(AriaRole.Button, new() { Name = "State it" }).ClickAsync();
        await desk.GotoAsync("/papers/new");
        await desk.GetByLabel("Name").FillAsync("Invented Matte 230");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Add it" }).ClickAsync();
        await desk.GotoAsync("/printers/new");
        await desk.GetByLabel("Name").FillAsync("Heron");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Add it" }).ClickAsync();
        await PutAwayAsync(desk, "A2", "25");
        await PutAwayAsync(desk, "A4", "50");

        // The sheet: both lots came today, so both are chosen.
        await desk.GotoAsync("/shelf/labels");
        await Expect(desk.GetByRole(AriaRole.Checkbox, new() { Checked = true })).ToHaveCountAsync(2);
        await Browser.SeeAsync(desk, "labels", 1440);
        var sheet = await desk.APIRequest.GetAsync("/shelf/labels.pdf?lot=1001&lot=1002&first=20");
        Assert.Equal("application/pdf", sheet.Headers["content-type"]);

        // The code on the label leads to the lot; the phone is a stranger, signs in by its PIN, and is at the lot.
        var phone = await browser.OpenAsync(room.Address, Phone, javaScript: false);
        await phone.SetExtraHTTPHeadersAsync(new Dictionary<string, string> { ["X-Forwarded-For"] = "192.0.2.7" });
        await phone.GotoAsync("/shelf/lots/1001");
        await phone.GetByLabel("Your name").FillAsync("Mira");
        await phone.GetByLabel("PIN or password").FillAsync("842196");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Expect(phone.Locator(".count .big")).ToHaveTextAsync("25");

        await phone.GetByLabel("Sheets to draw").FillAsync("3");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Draw", Exact = true }).ClickAsync();
        await Expect(phone.Locator(".count .big")).ToHaveTextAsync("22");
        await Expect(phone.Locator("table.rows")).ToContainTextAsync("Mira");
        await Browser.PictureAsync(phone, "phone-drawn", Phone);

        await phone.GetByLabel("Sheets to draw").FillAsync("99");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Draw", Exact = true }).ClickAsync();
        await Expect(phone.GetByRole(AriaRole.Alert)).ToContainTextAsync("has only 22 on the shelf, you asked for 99. Nothing was moved.");
        await Browser.PictureAsync(phone, "phone-refused", Phone);

        await phone.GetByLabel("Sheets counted").FillAsync("21");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Set the count" }).ClickAsync();
        await Expect(phone.Locator(".count .big")).ToHaveTextAsync("21");

        await phone.Locator("summary", new() { HasText = "More:" }).ClickAsync();
        await phone.GetByLabel("Place", new() { Exact = true }).FillAsync("drawer 5");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await Expect(phone.GetByRole(AriaRole.Status)).ToContainTextAsync("Written down");
        await Expect(phone.GetByText("drawer 5").First).ToBeVisibleAsync();
        Assert.True(await NoSidewaysAsync(desk, "/shelf/lots/1001"));
    }

    // At a phone's width nothing has to be pushed sideways; a page without script cannot be asked, so the desk's is made narrow.
    private static async Task<bool> NoSidewaysAsync(IPage page, string at)
    {
        await page.SetViewportSizeAsync(Phone, 900);
        await page.GotoAsync(at);
        return await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth");
    }

    private static async Task PutAwayAsync(IPage page, string format, string sheets)
    {
        await page.GotoAsync("/shelf/put-away");
        await page.GetByLabel("Format").SelectOptionAsync(format);
        await page.GetByLabel("How many").FillAsync(sheets);
        await page.GetByRole(AriaRole.Button, new() { Name = "Put away" }).ClickAsync();
        await Expect(page.Locator(".count .big")).ToHaveTextAsync(sheets);
    }
}
