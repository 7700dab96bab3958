using Microsoft.Playwright;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using static Microsoft.Playwright.Assertions;

namespace Goodsheet.Cli.Tests.Papers;

/// <summary>Papers proved and profiles watched, page by page in the demonstration, in a real browser at both widths.</summary>
public sealed class ProvingWalkTest(Browser browser, MadeDemo demo)
{
    private const string Condition = "heron-dragon-textured-300"; // it drifts, in every demonstration
    private const string Paper = "unicorn-smooth-310";

    private static readonly (string Name, string Path)[] Pages =
    [
        ("control", $"/control/{Condition}"), ("control-quiet", $"/control/heron-{Paper}"), ("tolerances", "/control/tolerances"), ("strip-new", $"/strips/new?condition={Condition}"),
        ("paper", $"/papers/{Paper}"), ("settings", $"/papers/settings?paper={Paper}"), ("bench", $"/papers/bench?paper={Paper}"),
        ("compare", "/papers/compare?p=unicorn-smooth-310&p=nobody-baryta-315&p=teapot-matte-230"), ("line-up", "/papers/line-up"), ("classes", "/papers/classes"),
        ("class", "/papers/classes/matte"), ("instruments", "/instruments"), ("chart-settings", "/charts/new?for=settings"),
    ];

    [Fact]
    public async Task Each_page_is_open_to_all_fits_the_phone_and_tells_its_plots_in_words_and_numbers()
    {
        await using var room = await demo.OpenCopyAsync(TestContext.Current.CancellationToken);
        foreach (var width in (int[])[1440, 390])
        {
            var page = await browser.OpenAsync(room.Address, width);
            foreach (var (name, path) in Pages)
            {
                var answer = await page.GotoAsync(path);
                Assert.Equal(200, answer!.Status);
                await Browser.SeeAsync(page, name, width);
                Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width, $"{path} is wider than {width}");
                Assert.Equal(0, await page.EvaluateAsync<int>("[...document.querySelectorAll('svg[role=img]')].filter(s => !s.querySelector('title')?.textContent.trim() || !s.querySelector('desc')?.textContent.trim()).length"));
                var plots = await page.Locator("figure.plot svg").CountAsync();
                Assert.True(plots == 0 || await page.Locator("a[href*='.csv']").CountAsync() > 0, $"{path} has plots and no numbers");
            }

            await page.GotoAsync($"/control/{Condition}");
            await page.GetByLabel("Something was done to Heron").SelectOptionAsync("HeadCleaning");
            await page.GetByLabel("In words").FillAsync($"seen at {width}");
            await page.GetByRole(AriaRole.Button, new() { Name = "Write that down" }).ClickAsync();
            await Expect(page.GetByText($"Head cleaned: seen at {width}").First).ToBeVisibleAsync();

            await page.GotoAsync($"/strips/new?condition={Condition}");
            await page.GetByLabel("The measurement file").SetInputFilesAsync(new FilePayload { Name = "strip.txt", MimeType = "text/plain", Buffer = System.Text.Encoding.UTF8.GetBytes(WithoutSpectra()) });
            await page.GetByRole(AriaRole.Button, new() { Name = "Bring it in" }).ClickAsync();
            await page.GetByRole(AriaRole.Button, new() { Name = "Hold it against the chart" }).ClickAsync();
            await Expect(page.GetByText("The strip has no spectra, and the cause is found from spectra.")).ToBeVisibleAsync();
            await Browser.SeeAsync(page, "strip-refused", width);

            await page.GotoAsync("/papers/settings?paper=nonesuch-gloss-260");
            await page.GetByLabel("Media setting").FillAsync($"Gloss {width}");
            await page.GetByLabel("the head touched the paper").CheckAsync();
            await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
            await Expect(page.GetByText("The test is written down.")).ToBeVisibleAsync();
            await page.GetByLabel("Media setting").FillAsync($"Pearl {width}");
            await page.GetByLabel("the head touched the paper").UncheckAsync();
            await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
            await page.GetByRole(AriaRole.Button, new() { Name = $"Print it so: Pearl {width}" }).ClickAsync();
            await Expect(page.GetByText("It is printed so from now on")).ToBeVisibleAsync();
            await Browser.SeeAsync(page, "settings-chosen", width);

            var pdf = await page.APIRequest.GetAsync($"/papers/{Paper}/page.pdf");
            Assert.Equal((200, "application/pdf"), (pdf.Status, pdf.Headers["content-type"]));
            var csv = await page.APIRequest.GetAsync("/papers/compare.csv?p=unicorn-smooth-310&p=nobody-baryta-315");
            Assert.StartsWith("paper,figure,at,value", await csv.TextAsync(), StringComparison.Ordinal);
        }
    }

    private static string WithoutSpectra()
    {
        var strip = InventedPrinter.Read(InventedPrinter.On(new(), pigment: true), [.. Enumerable.Range(0, 24).Select(i => (double[])[i % 7 / 6.0, i % 5 / 6.0, i % 3 / 6.0])], 1);
        return CgatsWriter.Write(strip with { Patches = [.. strip.Patches.Select(p => p with { Spectrum = null })] }, "invented", "a strip");
    }
}
