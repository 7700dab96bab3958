using Xunit.Sdk;

namespace Goodsheet.Cli.Tests;

/// <summary>The look at each page sees what keeps somebody out, or the walks would prove nothing of it.</summary>
public sealed class BrowserTest(Browser browser)
{
    private const string Head = "<!DOCTYPE html><html lang=en><title>Invented</title><main><h1>Invented</h1>";

    [Theory]
    [InlineData("<img src='data:,'>", "image-alt")]
    [InlineData("<input name=a>", "label")]
    [InlineData("<p style='color:#bbb;background:#fff'>Too faint to read</p>", "color-contrast")]
    [InlineData("<button></button>", "button-name")]
    public async Task A_page_that_keeps_somebody_out_is_told_with_what_does(string wrong, string rule)
    {
        var page = await browser.OpenAsync(new("http://127.0.0.1/"), 390);
        await page.SetContentAsync(Head + "<p>Nothing is wrong here.</p></main>");
        await Browser.AssertOpenToAllAsync(page);
        await page.SetContentAsync(Head + wrong + "</main>");
        var told = await Assert.ThrowsAnyAsync<XunitException>(() => Browser.AssertOpenToAllAsync(page));
        Assert.Contains($"{rule}: ", told.Message, StringComparison.Ordinal);
    }
}
