using System.Text;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Goodsheet.Cli.Tests.Opening;

/// <summary>A room's opening day in a real browser: lists that are wrong, lists that are right, then ink, money and labels on what came in.</summary>
public sealed class OpeningWalkTest(Browser browser)
{
    [Theory]
    [InlineData(1440)]
    [InlineData(390)]
    public async Task From_lists_with_a_mistake_to_a_room_that_knows_its_shelf_its_ink_and_its_money(int width)
    {
        await using var room = await RunningRoom.OpenAsync();
        var page = await browser.OpenAsync(room.Address, width);
        await page.GotoAsync("/shelf/consumables");
        await Browser.SeeAsync(page, "consumables-empty", width);
        await page.GotoAsync("/money/stock");
        await Browser.SeeAsync(page, "stock-money-empty", width);
        await page.GotoAsync("/printers/new");
        await page.GetByLabel("Name").FillAsync("Heron");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add it" }).ClickAsync();

        await page.GotoAsync("/opening");
        await Browser.SeeAsync(page, "opening", width);
        await BringAsync(page, shelf: "paper,format,quantity,best_before\nInvented Rag 300,A2,\"12,5\",\nNo such paper,A2,25,\n");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "2 lines are wrong" })).ToBeVisibleAsync();
        await Expect(page.GetByText("the room has no paper “No such paper”")).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "opening-wrong", width);
        await BringAsync(page, shelf: "paper,format,quantity,best_before\nInvented Rag 300,A2,25,2030-01-31\nInvented Rag 300,A4,100,2030-01-31\n");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "It can all be taken in" })).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "opening-fine", width);
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it all in" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "It is all in" })).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "opening-done", width);

        await page.GotoAsync("/shelf/consumables");
        await Expect(page.GetByText("none left").First).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "consumables", width);
        await page.GetByRole(AriaRole.Link, new() { Name = "Heron matte black" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "It is in the printer" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("It is in the printer. 1 left.");
        await page.GetByLabel("How many came").FillAsync("-3");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put away" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("-3 cannot be");
        await Browser.SeeAsync(page, "consumable", width);

        await page.GotoAsync("/money/stock");
        await Expect(page.GetByText("120.50").First).ToBeVisibleAsync();
        await Browser.SeeAsync(page, "stock-money", width);
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"));
    }

    private static async Task BringAsync(IPage page, string shelf)
    {
        await page.GetByLabel("Lists and profiles").SetInputFilesAsync(
        [
            List("papers.csv", "name,class,grammage\nInvented Rag 300,smooth fine art,300\n"),
            List("suppliers.csv", "name,cut_off,lead_days\nInvented Papers,14:30,1\n"),
            List("prices.csv", "supplier,paper,format,pack,price,from\nInvented Papers,Invented Rag 300,A2,25,120.50,2020-01-01\n"),
            List("ink.csv", "name,kind,printer,channel,ml,quantity,reorder_at\nHeron matte black,ink,Heron,matte black,80,2,1\nHeron cyan,ink,Heron,cyan,80,0,1\nTrimmer blades,blade,,,,5,2\n"),
            List("shelf.csv", shelf),
        ]);
        await page.GetByRole(AriaRole.Button, new() { Name = "Look at them" }).ClickAsync();
    }

    private static FilePayload List(string name, string text) => new() { Name = name, MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) };
}
