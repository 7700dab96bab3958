using System.Text;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Documents;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Papers;
using Goodsheet.App.Profiles;
using Goodsheet.App.Tests.Documents;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Tests.Papers;

public sealed class ComparePapersTest
{
    private static readonly InventedPaper Dull = new() { Warmth = 0.06, Surface = 0.02 };
    private static readonly InventedPaper Shiny = new() { Warmth = 0.02, Surface = 0.004, InkTake = 1.05 };

    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Papers_stand_side_by_side_with_best_for_each_purpose_and_the_numbers_of_all_in_one_file()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var files = new FileShelf(Path.Combine(room.Folder, "files"));
        PaperCode gloss = new("gloss"), gone = new("gone");
        await using (var db = room.Store.Open())
        {
            db.Papers.Add(new() { Code = gloss, Name = "Shine, \"invented\"", Class = PaperClass.Gloss, Base = PaperBase.ResinCoated, Coat = Coat.Shiny, Grammage = 260, Feed = Feed.Stack, LineUp = LineUp.In });
            db.Papers.Add(new() { Code = gone, Name = "Gone", Class = PaperClass.Gloss, Base = PaperBase.ResinCoated, Coat = Coat.Shiny, Grammage = 260, Feed = Feed.Stack, LineUp = LineUp.Gone });
            await db.SaveChangesAsync(Cancel);
        }

        await BringInAsync(room, files, FreshRoom.Cotton, Dull);
        await BringInAsync(room, files, gloss, Shiny);
        var compare = new ComparePapers(room.Store, files, new ScreenCopies(files));
        var done = (await compare.RunAsync(new([FreshRoom.Cotton, gloss, gone, new("nobody")]), Cancel)).Value!;
        Assert.Equal([gloss, FreshRoom.Cotton], done.Sides.Select(s => s.Paper.Code)); // by class; what is gone or unknown is left out
        Assert.IsType<ComparePapers.NoSuchPrint>((await compare.RunAsync(new([gloss], (9, 1)), Cancel)).Refusal);

        var proofs = new List<(string Paper, AssessPaper.Done Done)>();
        foreach (var side in done.Sides)
        {
            proofs.Add((side.Paper.Name, (await new AssessPaper().RunAsync(new(side.Charts), Cancel)).Value!));
        }

        var best = PaperComparison.Of([.. proofs.Select(p => (p.Done.Figures, p.Done.Verdict))]);
        Assert.Equal(0, best.Single(b => b.Purpose.StartsWith("Night", StringComparison.Ordinal)).Best);
        var csv = PaperCsv.Of(proofs);
        Assert.StartsWith("paper,figure,at,value\r\n\"Shine, \"\"invented\"\"\",white L*,M1,", csv, StringComparison.Ordinal);
        Assert.Contains("\"Test Cotton 300\",D-max,,", csv, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Opacity_is_the_paper_over_black_against_over_white_and_the_page_goes_onto_paper()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var files = new FileShelf(Path.Combine(room.Folder, "files"));
        await BringInAsync(room, files, FreshRoom.Cotton, Dull);
        var white = (await new ShowPaper(room.Store, files, clock).RunAsync(FreshRoom.Cotton, Cancel))!.Charts[0].Known!.White!.Value;
        await BringInAsync(room, files, FreshRoom.Cotton, Dull with { White = Dull.White * 0.92 }, overBlack: true);
        await new NoteBenchTest(room.Store, files, clock).RunAsync(new(new("Mira"), FreshRoom.Cotton, BenchKind.TouchDry, BenchVerdict.Fine, 4, "by the window"), Cancel);

        var page = (await new ShowPaper(room.Store, files, clock).RunAsync(FreshRoom.Cotton, Cancel))!;
        var proof = (await new AssessPaper().RunAsync(new(page.Charts, page.Rule), Cancel)).Value!;
        Assert.InRange(proof.Opacity!.Value, 0.915, 0.925); // the sheet over black throws back .92 of what it does over white
        Assert.Equal(white, proof.Figures.White); // a reading over black says nothing of the white

        var paper = PaperPages.Draw(page, proof, clock.GetUtcNow());
        Assert.Empty(PdfReading.Outside(paper.Pdf));
        var words = PdfReading.Text(paper.Pdf);
        foreach (var said in (string[])["Test Cotton 300", "smooth fine art", "D-max", "Opacity", "Touch-dry: 4 minutes, by the window, fine", "Handling"])
        {
            Assert.Contains(said, words, StringComparison.OrdinalIgnoreCase);
        }

        Assert.Contains("Nobody has measured", PdfReading.Text(PaperPages.Draw(page with { Charts = [] }, null, clock.GetUtcNow()).Pdf), StringComparison.Ordinal);
    }

    private async Task BringInAsync(FreshRoom room, FileShelf files, PaperCode paper, InventedPaper optics, bool overBlack = false)
    {
        double[][] chart = [.. Enumerable.Range(0, 64).Select(i => (double[])[i / 16 / 3.0, i / 4 % 4 / 3.0, i % 4 / 3.0])];
        var text = CgatsWriter.Write(InventedPrinter.Read(InventedPrinter.On(optics, pigment: true), chart, 5), "invented", "for a test");
        var kept = await files.KeepAsync(new MemoryStream(Encoding.UTF8.GetBytes(text)), Cancel);
        Assert.True((await new BringInReading(room.Store, files, clock).RunAsync(
            new(new("Mira"), kept.Hash, "chart.txt", paper, FreshRoom.Heron, "Art", OverBlack: overBlack), Cancel)).Granted);
    }
}
