using Goodsheet.App.Documents;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Tests.Documents;

public sealed class RunCardDocumentTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_card_is_one_page_with_the_order_of_work_and_a_code_that_opens_it()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1), ("Still Pond", 195, 285, 2));
        await press.ChangeAsync(async db => (await db.Settings.FindAsync([1], Cancel))!.Address = "http://192.0.2.20:5080");
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var card = (await new RunCardDocument(press.Store, press.Clock).RunAsync(new(run), Cancel)).Value!;
        await KeepAsync("card", card);

        Assert.Equal(1, card.Pages);
        Assert.Equal($"http://192.0.2.20:5080/runs/{run}", PdfReading.Code(card.Pdf));
        var text = PdfReading.Text(card.Pdf);
        foreach (var said in (string[])["Put matte black in", "Feed one by one, through the art path", "The short edge (420 mm) first", "Brush it before feeding", "media setting “Art, heavy”", "Blade.", "Low Water", "stop at"])
        {
            Assert.Contains(said, text, StringComparison.Ordinal);
        }

        Assert.Empty(PdfReading.Outside(card.Pdf));
    }

    [Fact]
    public async Task Every_cut_of_five_hundred_pieces_is_on_the_card_whatever_pages_it_takes()
    {
        await using var press = await PressRoom.OpenAsync(("A title that is much longer than the piece that bears it", 100, 65, 250), ("Little", 90, 60, 250));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 100));
        var card = (await new RunCardDocument(press.Store, press.Clock).RunAsync(new(run), Cancel)).Value!;
        await KeepAsync("card-500", card);

        var layout = (await new ShowRuns(press.Store).CardAsync(run, Cancel))!.Layout;
        Assert.Equal(500, layout.Prints);
        var said = PdfReading.Text(card.Pdf).Split("stop at").Length - 1;
        Assert.Equal(layout.Groups().Sum(g => g.Sheet.Cuts.Count), said);
        Assert.InRange(card.Pages, 2, 40);
        Assert.All(Enumerable.Range(2, card.Pages - 1), p => Assert.Contains($"Run {run}, continued", PdfReading.Text(card.Pdf, p), StringComparison.Ordinal));
        Assert.Empty(PdfReading.Outside(card.Pdf));
    }

    [Fact]
    public async Task A_roll_with_long_names_keeps_to_its_pages()
    {
        await using var press = await PressRoom.OpenAsync((new string('W', 200), 560, 400, 3));
        await press.ChangeAsync(async db => (await db.Papers.FindAsync([FreshRoom.Cotton], Cancel))!.Name = "Extraordinarily Warm Hand-Finished Museum Cotton of Nether Aldern 1150");
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.Roll, 15_000));
        var card = (await new RunCardDocument(press.Store, press.Clock).RunAsync(new(run), Cancel)).Value!;
        await KeepAsync("card-roll", card);
        Assert.Contains("A full roll is heavy.", PdfReading.Text(card.Pdf), StringComparison.Ordinal);
        Assert.Contains("No QR code", PdfReading.Text(card.Pdf), StringComparison.Ordinal);
        Assert.Empty(PdfReading.Outside(card.Pdf));
    }

    [Theory]
    [InlineData(Feed.Stack, "Fan the sheets and load them together")]
    [InlineData(Feed.TwoOrThree, "Load two or three sheets at a time")]
    [InlineData(Feed.OneByOne, "Feed one by one, through the art path")]
    public async Task The_card_feeds_the_paper_its_own_way_and_no_other(Feed feed, string words)
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        await press.ChangeAsync(async db => (await db.Papers.FindAsync([FreshRoom.Cotton], Cancel))!.Feed = feed);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var steps = (await new ShowRuns(press.Store).CardAsync(run, Cancel))!.Steps;
        Assert.Contains(steps, s => s.Do == words);
        Assert.Equal(1, steps.Count(s => s.Do.Contains("load", StringComparison.OrdinalIgnoreCase) || s.Do.StartsWith("Feed", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task There_is_no_card_of_a_run_that_is_not_there()
    {
        await using var press = await PressRoom.OpenAsync();
        Assert.Equal(new NoSuchRun(9), (await new RunCardDocument(press.Store, press.Clock).RunAsync(new(9), Cancel)).Refusal);
    }

    // For an eye: GOODSHEET_SCREENSHOTS names a folder to look at them in.
    private static async Task KeepAsync(string name, Document document)
    {
        if (Environment.GetEnvironmentVariable("GOODSHEET_SCREENSHOTS") is { Length: > 0 } folder)
        {
            await File.WriteAllBytesAsync(Path.Combine(folder, $"{name}.pdf"), document.Pdf, Cancel);
        }
    }
}
