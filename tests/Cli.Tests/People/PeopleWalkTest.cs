using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Goodsheet.Cli.Tests.People;

/// <summary>People and phones as a person meets them, in a real browser.</summary>
public sealed class PeopleWalkTest(Browser browser)
{
    [Theory]
    [InlineData(1440)]
    [InlineData(390)]
    public async Task From_a_name_to_a_paired_phone(int width)
    {
        await using var room = await RunningRoom.OpenAsync();
        var desk = await browser.OpenAsync(room.Address, width);
        await desk.GotoAsync("/people");
        await desk.GetByLabel("Name").FillAsync("Mira");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await desk.GetByRole(AriaRole.Link, new() { Name = "Mira" }).ClickAsync();
        await desk.GetByLabel("PIN or password").FillAsync("842196");
        await desk.GetByLabel("Once more").FillAsync("842197");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(desk.GetByText("The two differ")).ToBeVisibleAsync();
        await Browser.SeeAsync(desk, "person", width);
        await desk.GetByLabel("PIN or password").FillAsync("842196");
        await desk.GetByLabel("Once more").FillAsync("842196");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(desk.GetByRole(AriaRole.Status)).ToContainTextAsync("Kept.");

        await desk.GotoAsync("/people/phones");
        await desk.GetByLabel("Address").FillAsync($"http://127.0.0.1:{room.Address.Port}");
        await desk.GetByRole(AriaRole.Button, new() { Name = "State it" }).ClickAsync();
        await Expect(desk.GetByRole(AriaRole.Alert)).ToContainTextAsync("it would mean the phone");
        await desk.GetByLabel("Address").FillAsync("http://192.0.2.20:5080");
        await desk.GetByRole(AriaRole.Button, new() { Name = "State it" }).ClickAsync();
        await desk.GetByRole(AriaRole.Button, new() { Name = "Show a code" }).ClickAsync();
        var code = (await desk.Locator(".doc .big").InnerTextAsync()).Trim();
        await Browser.SeeAsync(desk, "phones-code", width);

        // Something between says that it is not the desk; the phone has no script.
        var phone = await browser.OpenAsync(room.Address, width, javaScript: false);
        await phone.SetExtraHTTPHeadersAsync(new Dictionary<string, string> { ["X-Forwarded-For"] = "192.0.2.7" });
        await phone.GotoAsync("/shelf");
        await Expect(phone.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();
        await phone.GetByLabel("Your name").FillAsync("Mira");
        await phone.GetByLabel("PIN or password").FillAsync("111222");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Expect(phone.GetByRole(AriaRole.Alert)).ToContainTextAsync("do not belong together");
        await Browser.PictureAsync(phone, "sign-in", width);
        await phone.GetByRole(AriaRole.Link, new() { Name = "I have a code" }).ClickAsync();
        await phone.GetByLabel("Code from the desk screen").FillAsync("AAAA-AAAA");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Pair it" }).ClickAsync();
        await Expect(phone.GetByRole(AriaRole.Alert)).ToContainTextAsync("wrong, used or older");
        await Browser.PictureAsync(phone, "pair", width);
        await phone.GetByLabel("Code from the desk screen").FillAsync(code);
        await phone.GetByLabel("What to call this phone").FillAsync("Mira’s phone");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Pair it" }).ClickAsync();
        await Expect(phone.GetByRole(AriaRole.Contentinfo)).ToContainTextAsync("Mira");
        foreach (var page in (string[])["/", "/shelf", "/papers", "/printers", "/profiles", "/orders", "/runs", "/people"])
        {
            var answer = await phone.GotoAsync(page);
            Assert.True(answer!.Ok, page);
            await Expect(phone.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
        }

        await desk.GotoAsync("/people/phones");
        await Browser.SeeAsync(desk, "phones", width);
        await desk.GotoAsync("/people");
        await Browser.SeeAsync(desk, "people", width);
        await desk.GetByRole(AriaRole.Link, new() { Name = "Phones and screens" }).ClickAsync();
        await desk.GetByRole(AriaRole.Button, new() { Name = "Shut out" }).ClickAsync();
        await Expect(desk.GetByRole(AriaRole.Status)).ToContainTextAsync("is shut out");
        await phone.GotoAsync("/shelf");
        await Expect(phone.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();

        await desk.GotoAsync("/no/such/page");
        await Browser.SeeAsync(desk, "not-here", width);
    }
}
