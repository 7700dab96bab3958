using System.Text;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Files;
using Goodsheet.App.Papers;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Papers;

public sealed class PaperProofTest
{
    private static readonly InventedPaper Cotton = new() { White = 0.89, Warmth = 0.04, Brightener = 0.14, Surface = 0.02 };

    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_paper_is_proved_by_its_readings_and_the_page_says_what_the_files_say()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var files = new FileShelf(Path.Combine(room.Folder, "files"));
        var show = new ShowPaper(room.Store, files, clock);
        Assert.Empty((await show.RunAsync(FreshRoom.Cotton, Cancel))!.Charts);
        var with = await BringInAsync(room, files, Cotton, MCondition.M1, 0.1);
        await BringInAsync(room, files, Cotton, MCondition.M2);
        await BringInAsync(room, files, Cotton with { Gain = Cotton.Gain + 0.01 }, MCondition.M1, 1);
        await BringInAsync(room, files, Cotton with { Gain = Cotton.Gain + 0.015 }, MCondition.M1, 24);

        var page = (await show.RunAsync(FreshRoom.Cotton, Cancel))!;
        var proof = (await new AssessPaper().RunAsync(new(page.Charts, page.Rule), Cancel)).Value!;
        Assert.True(proof.Verdict.Brightener >= Brightener.Low, $"{proof.Verdict}");
        Assert.Equal(proof.Verdict.Brightener, page.Paper.BrightenerMeasured);
        Assert.Equal([MCondition.M1, MCondition.M2], proof.Conditions.Select(c => c.Condition));
        Assert.Equal(3, proof.Drying!.Readings.Length);
        Assert.NotNull(proof.Drying.MeasureAfter);
        Assert.Empty(proof.Findings);
        Assert.Contains("gamut reach C*,L* 50 h 300,", PaperCsv.Of(proof), StringComparison.Ordinal);

        // Kept figures are those of the file.
        var fresh = (await new AssessPaper().RunAsync(new([new(files.PathOf(with))]), Cancel)).Value!;
        var kept = page.Charts[^1].Known!;
        Assert.Equal((fresh.Figures.White, fresh.Figures.Volume, fresh.Figures.VolumeFollowed, fresh.Figures.DMax), (kept.White, kept.Volume, kept.VolumeFollowed, kept.DMax));
    }

    [Fact]
    public async Task What_cannot_be_told_is_refused_in_words()
    {
        var folder = Directory.CreateTempSubdirectory("goodsheet-proof-test").FullName;
        try
        {
            var chart = Path.Combine(folder, "chart.txt");
            await File.WriteAllTextAsync(chart, Text(Cotton, MCondition.M1), Cancel);
            Assert.IsType<AssessPaper.NotWithAndWithout>((await new AssessPaper().RunAsync(new([new(chart), new(chart)], WantsBrightener: true), Cancel)).Refusal);
            Assert.IsType<AssessPaper.NoBarePaper>((await new AssessPaper().RunAsync(new([]), Cancel)).Refusal);
            Assert.IsType<NoSuchFile>((await new AssessPaper().RunAsync(new([new(chart + "x")]), Cancel)).Refusal);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task A_bench_test_stands_with_its_photograph_and_nothing_else_passes_for_one()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var files = new FileShelf(Path.Combine(room.Folder, "files"));
        var note = new NoteBenchTest(room.Store, files, clock);
        var photo = (await files.KeepAsync(new MemoryStream([0xFF, 0xD8, 0xFF, 0xE0, 0, 0]), Cancel)).Hash;
        var text = (await files.KeepAsync(new MemoryStream("<html>"u8.ToArray()), Cancel)).Hash;
        NoteBenchTest.Request asked = new(new("Mira"), FreshRoom.Cotton, BenchKind.TouchDry, BenchVerdict.Fine, 4, "", photo);
        Assert.True((await note.RunAsync(asked, Cancel)).Granted);
        Assert.IsType<NoteBenchTest.NotAPhoto>((await note.RunAsync(asked with { Photo = text }, Cancel)).Refusal);
        Assert.IsType<NoteBenchTest.CannotBe>((await note.RunAsync(asked with { Value = -1 }, Cancel)).Refusal);
        Assert.IsType<NoteBenchTest.NoSuchPaper>((await note.RunAsync(asked with { Paper = new("none") }, Cancel)).Refusal);
        var show = new ShowPaper(room.Store, files, clock);
        var test = Assert.Single((await show.RunAsync(FreshRoom.Cotton, Cancel))!.Bench);
        Assert.Equal((files.PathOf(photo), "image/jpeg"), await show.PhotoAsync(test.Id, Cancel));
        Assert.Null(await show.PhotoAsync(Guid.NewGuid(), Cancel));
    }

    [Fact]
    public async Task The_smallest_line_up_takes_all_of_the_year_s_work_and_says_what_the_rest_would_have_cost()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var files = new FileShelf(Path.Combine(room.Folder, "files"));
        await using (var db = room.Store.Open())
        {
            db.Papers.Add(new() { Code = new("twin"), Name = "Twin", Class = PaperClass.Matte, Base = PaperBase.Cellulose, Coat = Coat.Dull, Grammage = 200, Feed = Feed.Stack, LineUp = LineUp.In });
            db.Papers.Add(new() { Code = new("unread"), Name = "Unread", Class = PaperClass.Gloss, Base = PaperBase.ResinCoated, Coat = Coat.Shiny, Grammage = 260, Feed = Feed.Stack, LineUp = LineUp.In });
            db.Clients.Add(new() { Number = 1, Name = "Nobody" });
            db.Orders.Add(new() { Number = 1, Client = 1, TakenAt = clock.GetUtcNow().AddDays(-30), TakenBy = new("Mira"), Promised = clock.GetUtcNow() });
            await db.SaveChangesAsync(Cancel);
            var line = 0;
            foreach (var (paper, copies) in ((string, int)[])[("test-cotton", 20), ("twin", 3), ("unread", 1)])
            {
                db.PrintLines.Add(new()
                {
                    Order = 1,
                    Line = ++line,
                    Title = "t",
                    ImageHash = "h",
                    ImageName = "i",
                    PixelsWide = 10,
                    PixelsHigh = 10,
                    Width = Length.FromMillimetres(100),
                    Height = Length.FromMillimetres(100),
                    Paper = new(paper),
                    Copies = copies,
                });
            }

            await db.SaveChangesAsync(Cancel);
        }

        await BringInAsync(room, files, Cotton, MCondition.M1);
        await BringInAsync(room, files, Cotton with { Gain = 0.13 }, MCondition.M1, paper: new("twin"));
        var propose = new ProposeLineUp(room.Store, files, clock);
        var alike = (await propose.RunAsync(new(1.5, Finish.SameCoat), Cancel)).Value!;
        Assert.Equal(["test-cotton", "unread"], alike.Kept.Select(l => l.Paper.Code.Value));
        Assert.Equal("test-cotton", Assert.Single(alike.LeftOut).Instead!.Paper.Code.Value);
        Assert.Equal(24, alike.Prints);
        Assert.All(alike.Kept, l => Assert.Equal((null, null, null), (l.Year.Waste, l.Year.StockDays, l.Year.Left))); // nothing of it was bought or printed
        Assert.InRange(alike.LeftOut[0].Alone!.Value, 0, 0.2); // a twin holds little that the other does not
        Assert.Equal([true, false], alike.Kept.Select(l => l.Alone is not null));
        Assert.Equal(3, (await propose.RunAsync(new(1.5, Finish.SameClass), Cancel)).Value!.Kept.Count);
        Assert.IsType<ProposeLineUp.NoSuchLimit>((await propose.RunAsync(new(-1), Cancel)).Refusal);
    }

    private async Task<string> BringInAsync(FreshRoom room, FileShelf files, InventedPaper optics, MCondition condition, double? hours = null, PaperCode? paper = null)
    {
        var kept = await files.KeepAsync(new MemoryStream(Encoding.UTF8.GetBytes(Text(optics, condition))), Cancel);
        var done = await new BringInReading(room.Store, files, clock).RunAsync(
            new(new("Mira"), kept.Hash, "chart.txt", paper ?? FreshRoom.Cotton, FreshRoom.Heron, "Fine art", HoursAfter: hours), Cancel);
        Assert.True(done.Granted, done.Refusal?.Message);
        return kept.Hash;
    }

    private static string Text(InventedPaper paper, MCondition condition)
    {
        var patches = new List<double[]>();
        for (var i = 0; i < 64; i++)
        {
            patches.Add([i / 16 / 3.0, i / 4 % 4 / 3.0, i % 4 / 3.0]);
        }

        patches.AddRange([[0.5, 0.5, 0.5], [1, 1, 1], [1, 1, 1]]);
        return CgatsWriter.Write(
            InventedPrinter.Read(InventedPrinter.On(paper, pigment: true, condition: condition), patches, 5, condition: condition), "Goodsheet, invented", "for a test");
    }
}
