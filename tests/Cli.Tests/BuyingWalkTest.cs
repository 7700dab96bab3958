using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Goodsheet.Cli.Tests;

/// <summary>From a supplier's clock to a delivery on the shelf, in a real browser at both widths.</summary>
public sealed class BuyingWalkTest(Browser browser)
{
    [Theory]
    [InlineData(1440)]
    [InlineData(390)]
    public async Task From_a_low_shelf_to_the_boxes_that_came(int width)
    {
        await using var room = await RunningRoom.OpenAsync();
        var page = await browser.OpenAsync(room.Address, width);
        await page.GotoAsync("/papers/new");
        await page.GetByLabel("Name").FillAsync("Invented Matte 230");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add it" }).ClickAsync();
        await page.GotoAsync("/shelf/put-away");
        await page.GetByLabel("Format").SelectOptionAsync("A2");
        await page.GetByLabel("How many").FillAsync("3");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put away" }).ClickAsync();

        await page.GotoAsync("/buying");
        await Browser.SeeAsync(page, "buying-empty", width);
        await page.GotoAsync("/buying/suppliers/new");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Invented Papers");
        await Browser.SeeAsync(page, "supplier-new", width);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add it" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Invented Papers" })).ToBeVisibleAsync();
        await page.GetByLabel("Pack", new() { Exact = true }).FillAsync("25");
        await page.GetByLabel("A pack costs").FillAsync("48.5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Set the price" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Status)).ToHaveTextAsync("The price is set.");
        await Browser.SeeAsync(page, "supplier", width);

        await page.GotoAsync("/buying");
        await Browser.SeeAsync(page, "buying", width);
        await page.GotoAsync("/shelf/consumables");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Cotton gloves, pairs");
        await page.GetByLabel("Kind").SelectOptionAsync("Gloves");
        await page.GetByLabel("Bought from").SelectOptionAsync("Invented Papers");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await page.GetByLabel("One costs").FillAsync("3.5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it so" }).ClickAsync();
        await Expect(page.GetByText("It is kept so from now on.")).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "consumable-price", width);
        await page.GotoAsync("/buying/suppliers/invented-papers/rhythm");
        await Browser.SeeAsync(page, "rhythm-empty", width);
        await page.GotoAsync("/shelf/items/invented-matte-230/A2");
        await page.GetByLabel("Same-day reserve").FillAsync("5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it so" }).ClickAsync();
        await page.GotoAsync("/");
        await Expect(page.GetByText("order before the cut-off")).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "today-buy", width);
        await page.GotoAsync("/buying");
        await page.GetByRole(AriaRole.Link, new() { Name = "Invented Matte 230" }).ClickAsync();
        await Browser.SeeAsync(page, "buying-item", width);
        await page.GotoAsync("/buying/ahead");
        await page.GetByLabel("A supplier stands still").SelectOptionAsync("Invented Papers");
        await page.GetByRole(AriaRole.Button, new() { Name = "Run it forward" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Item by item" })).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "buying-ahead", width);
        await page.GotoAsync("/buying");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write the order" }).ClickAsync();
        await page.GetByLabel("Packs of Invented Matte 230, A2").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Change the order" }).ClickAsync();
        await page.GetByLabel("Pieces of Cotton gloves, pairs").FillAsync("4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Change the order" }).ClickAsync();
        await Expect(page.GetByText("111.00").First).ToBeVisibleAsync(); // 2 packs of 48.50, 4 pairs at 3.50
        await Browser.SeeAsync(page, "purchase", width);
        var pdf = await page.APIRequest.GetAsync(new Uri(room.Address, "/buying/orders/101/order.pdf").ToString());
        Assert.Equal("%PDF", System.Text.Encoding.ASCII.GetString(await pdf.BodyAsync(), 0, 4));
        await page.GetByRole(AriaRole.Button, new() { Name = "It is sent" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Goods in" }).ClickAsync();
        await page.GetByLabel("Delivery note").FillAsync("8830");
        await page.GetByLabel("Good sheets").FillAsync("25");
        await page.GetByLabel("Damaged").First.FillAsync("25");
        await Browser.SeeAsync(page, "goods-in", width);
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it in" }).ClickAsync();
        await Expect(page.GetByText("The rest is still awaited.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "The order" }).ClickAsync();
        await Expect(page.Locator("dl .mark.due")).ToHaveTextAsync("part delivered");
        await Browser.SeeAsync(page, "purchase-part", width);
    }
}
