using Microsoft.EntityFrameworkCore;
using UglyToad.PdfPig;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Orders;

/// <summary>What is printed beside, before or instead of a whole print: test strips, tiles, sheets of proofs, and the PDF.</summary>
public sealed class PrintPiecesOfOrderTest : IDisposable
{
    private const int Ppi = 100;
    private const double MmAPixel = 25.4 / Ppi;

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-pieces-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private FileShelf Files => new(Path.Combine(folder, "files"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_test_strip_is_made_printed_booked_as_a_test_and_judged_and_all_of_it_stays_with_the_order()
    {
        await using var press = await WithAsync(300, 200);
        var line = await LineAsync(press);
        var about = MakeTestStrip.About(line, Mm(150), Mm(80), Mm(60), Mm(40), PlaceKind.Skin).Value!;
        var said = await new MakeTestStrip(press.Store, Files, press.Clock).DoNowAsync(about, Cancel);
        Assert.StartsWith("Test strip 1 is made, 60 × 40 mm", said, StringComparison.Ordinal);

        var show = new ShowTestStrips(press.Store, Files, new(Files));
        var page = (await show.RunAsync(PressRoom.Order, 1, Mm(60), Mm(40), Cancel))!;
        Assert.Equal(PlaceKind.Most, page.Places[0].Kind);
        var strip = Assert.Single(page.Strips);
        Assert.Equal((PlaceKind.Skin, PressRoom.Profile, Mm(150)), (strip.Place, strip.Profile, strip.X));
        using (var file = NetVips.Image.NewFromFile((await show.FileAsync(PressRoom.Order, 1, 1, Cancel))!))
        {
            Assert.True(file.Width >= 60 / MmAPixel && file.Height >= 40 / MmAPixel && file.Width <= (60 + 13) / MmAPixel);
        }

        var judge = new JudgeTestStrip(press.Store, press.Clock);
        Assert.IsType<JudgeTestStrip.NotPrinted>((await judge.RunAsync(new(PressRoom.Mira, PressRoom.Order, 1, 1, StripSays.GoOn, ""), Cancel)).Refusal);
        var lot = await press.StockAsync(FreshRoom.A4, 5);
        var note = new NoteTestStrip(press.Store, press.Clock);
        var wish = new NoteTestStrip.Request(CommandId.New(), PressRoom.Mira, PressRoom.Order, 1, 1, lot, 1);
        Assert.True((await note.RunAsync(wish, Cancel)).Granted);
        Assert.True((await note.RunAsync(wish, Cancel)).Granted); // asked twice, booked once
        Assert.Equal(4, (await press.BalanceAsync(lot)).OnShelf);

        Assert.IsType<SayWhy>((await judge.RunAsync(new(PressRoom.Mira, PressRoom.Order, 1, 1, StripSays.Change, " "), Cancel)).Refusal);
        Assert.True((await judge.RunAsync(new(PressRoom.Mira, PressRoom.Order, 1, 1, StripSays.Change, "the shadows close"), Cancel)).Granted);
        await using var db = press.Store.Open();
        Assert.Equal([(1L, $"order {PressRoom.Order}")], (await db.Moves.ToListAsync(Cancel)).Where(m => m.To == Account.Tests).Select(m => (m.Quantity, m.Reference)));
        var fact = await db.OrderFacts.SingleAsync(Cancel);
        Assert.Equal((FactKind.StripJudged, "Test strip 1 of print 1, profile 7: change. the shadows close"), (fact.Kind, fact.Text));
    }

    [Fact]
    public async Task A_test_strip_is_pixel_for_pixel_what_stands_there_in_the_whole_print()
    {
        await using var press = await WithAsync(300, 200);
        await new PreparePrint(press.Store, Files, press.Clock).DoNowAsync($"print {PressRoom.Order}/1", Cancel);
        var line = await LineAsync(press);
        await new MakeTestStrip(press.Store, Files, press.Clock).DoNowAsync(MakeTestStrip.About(line, Mm(50.8m), Mm(25.4m), Mm(76.2m), Mm(50.8m), PlaceKind.Chosen).Value!, Cancel);
        using var whole = NetVips.Image.NewFromFile(Files.PathOf(line.PreparedHash!), memory: true);
        using var strip = NetVips.Image.NewFromFile((await new ShowTestStrips(press.Store, Files, new(Files)).FileAsync(PressRoom.Order, 1, 1, Cancel))!, memory: true);
        var margin = (int)Math.Floor((6 / MmAPixel) + 0.5);
        using var there = whole.Crop(200, 100, 300, 200);
        using var here = strip.Crop(margin, margin, 300, 200);
        Assert.Equal(there.WriteToMemory<ushort>(), here.WriteToMemory<ushort>());
    }

    [Fact]
    public async Task On_a_full_disk_nothing_is_begun_and_the_order_stays_as_it_was()
    {
        await using var press = await WithAsync(300, 200);
        var line = await LineAsync(press);
        var full = new FileShelf(Files.Folder, new(_ => 0));
        var before = Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Order().ToArray();
        Assert.StartsWith("The disk has no room", await new PreparePrint(press.Store, full, press.Clock).DoNowAsync($"print {PressRoom.Order}/1", Cancel), StringComparison.Ordinal);
        Assert.StartsWith(
            "The disk has no room",
            await new MakeTestStrip(press.Store, full, press.Clock).DoNowAsync(MakeTestStrip.About(line, Mm(50), Mm(25), Mm(76), Mm(50), PlaceKind.Chosen).Value!, Cancel),
            StringComparison.Ordinal);
        Assert.Equal(before, Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Order());
        Assert.Null((await LineAsync(press)).PreparedHash);
    }

    [Theory]
    [InlineData(0, 0, 5, 40)]
    [InlineData(0, 0, 60, 601)]
    [InlineData(295, 0, 60, 40)]
    [InlineData(-1, 0, 60, 40)]
    public async Task A_strip_that_cannot_be_is_refused(int x, int y, int width, int height)
    {
        await using var press = await WithAsync(300, 200);
        Assert.False(MakeTestStrip.About(await LineAsync(press), Mm(x), Mm(y), Mm(width), Mm(height), PlaceKind.Chosen).Granted);
    }

    [Fact]
    public async Task Tiles_of_a_print_wider_than_the_roll_join_to_the_whole_to_the_pixel()
    {
        await using var press = await WithAsync(900, 600);
        await StockRollAsync(press);
        await new PreparePrint(press.Store, Files, press.Clock).DoNowAsync($"print {PressRoom.Order}/1", Cancel);
        var show = new ShowTiles(press.Store, Files, press.Clock);
        var page = (await show.RunAsync(PressRoom.Order, 1, null, Mm(20), Cancel))!;
        var tiling = page.Tiling.Value!;
        Assert.Equal((FreshRoom.Roll, 2), (page.Format!.Code, tiling.Tiles.Count));

        var said = await new MakeTiles(press.Store, Files, press.Clock).DoNowAsync(MakeTiles.About(page.Print, page.Format, page.Overlap), Cancel);
        Assert.StartsWith("2 tiles are made", said, StringComparison.Ordinal);
        using var whole = NetVips.Image.NewFromFile(Files.PathOf((await LineAsync(press)).PreparedHash!), memory: true);
        foreach (var tile in tiling.Tiles)
        {
            using var made = NetVips.Image.NewFromFile((await show.FileAsync(PressRoom.Order, 1, 1, tile.Number, Cancel))!, memory: true);
            using var upright = tiling.Turned ? made.Rot270() : made.Copy();
            int Pixels(Length at) => (int)Math.Floor((at.Millimetres / MmAPixel) + 0.5);
            var (margin, x, y) = (Pixels(tiling.Margin), Pixels(tile.X), Pixels(tile.Y));
            var (width, height) = (Pixels(tile.X + tile.Width) - x, Pixels(tile.Y + tile.Height) - y);
            using var there = whole.Crop(x, y, width, height);
            using var here = upright.Crop(margin, tiling.Turned ? upright.Height - height - margin : margin, width, height);
            Assert.Equal(there.WriteToMemory<ushort>(), here.WriteToMemory<ushort>());
        }

        using var pdf = PdfDocument.Open(await PdfAsync(await show.PdfAsync(PressRoom.Order, 1, 1, Cancel)));
        Assert.Equal(2, pdf.NumberOfPages);
        var shown = pdf.GetPages().Sum(p => p.Dictionary.TryGet(UglyToad.PdfPig.Tokens.NameToken.Create("TrimBox"), out UglyToad.PdfPig.Tokens.ArrayToken box) ? Area(box) : 0);
        Assert.Equal(900.0 * 600, shown, 900 * MmAPixel); // square mm, half a pixel along one side
    }

    [Fact]
    public async Task A_print_that_was_changed_since_asks_for_its_tiles_again()
    {
        await using var press = await WithAsync(900, 600);
        await StockRollAsync(press);
        var show = new ShowTiles(press.Store, Files, press.Clock);
        var page = (await show.RunAsync(PressRoom.Order, 1, null, Mm(20), Cancel))!;
        await new MakeTiles(press.Store, Files, press.Clock).DoNowAsync(MakeTiles.About(page.Print, page.Format!, page.Overlap), Cancel);
        await press.ChangeAsync(async db => (await db.PrintLines.SingleAsync(Cancel)).Width = Mm(2400));
        Assert.IsType<ShowTiles.ChangedSince>((await show.PdfAsync(PressRoom.Order, 1, 1, Cancel)).Refusal);
    }

    [Theory]
    [InlineData(ProofsOf.Intents, 8)]
    [InlineData(ProofsOf.Papers, 2)]
    public async Task A_sheet_of_proofs_is_as_large_as_its_paper_prints(ProofsOf of, int cells)
    {
        await using var press = await WithAsync(300, 200);
        await AnotherPaperAsync(press);
        await press.StockAsync(FreshRoom.A4, 5);
        var show = new ShowProofSheets(press.Store, Files, press.Clock);
        var page = (await show.RunAsync(PressRoom.Order, 1, Cancel))!;
        var said = await new MakeProofSheet(press.Store, Files, press.Clock).DoNowAsync(MakeProofSheet.About(page.Print, of, page.Formats.Single()), Cancel);
        Assert.StartsWith($"A sheet of {cells} proofs is made", said, StringComparison.Ordinal);
        using var sheet = NetVips.Image.NewFromFile((await show.FileAsync(PressRoom.Order, 1, 1, Cancel))!);
        Assert.Equal((200 / MmAPixel, 287 / MmAPixel), (sheet.Width, sheet.Height), (a, b) => Math.Abs(a.Item1 - b.Item1) < 1 && Math.Abs(a.Item2 - b.Item2) < 1);
        using var pdf = PdfDocument.Open(await PdfAsync(await show.PdfAsync(PressRoom.Order, 1, 1, Cancel)));
        Assert.Equal(1, pdf.NumberOfPages);
        Assert.NotNull(await show.PictureAsync(PressRoom.Order, 1, 1, Cancel));
    }

    [Fact]
    public async Task The_pdf_of_a_print_is_as_large_as_it_and_is_refused_before_it_is_prepared()
    {
        await using var press = await WithAsync(300, 200);
        var use = new PrintPdf(press.Store, Files, press.Clock);
        Assert.IsType<PrintPdf.NotPrepared>((await use.RunAsync(new(PressRoom.Order, 1), Cancel)).Refusal);
        Assert.IsType<ProofPrint.NoSuchPrint>((await use.RunAsync(new(PressRoom.Order, 9), Cancel)).Refusal);
        await new PreparePrint(press.Store, Files, press.Clock).DoNowAsync($"print {PressRoom.Order}/1", Cancel);
        using var pdf = PdfDocument.Open(await PdfAsync(await use.RunAsync(new(PressRoom.Order, 1), Cancel)));
        Assert.Equal(1.6m, (decimal)pdf.Version);
        var page = pdf.GetPage(1);
        Assert.Equal((300 / 25.4 * 72, 200 / 25.4 * 72), ((double)page.Width, (double)page.Height), (a, b) => Math.Abs(a.Item1 - b.Item1) < 1 && Math.Abs(a.Item2 - b.Item2) < 1);
        Assert.Equal("Low Water", pdf.Information.Title);
        Assert.Equal(16, Assert.Single(page.GetImages()).BitsPerComponent);
    }

    private static double Area(UglyToad.PdfPig.Tokens.ArrayToken box)
    {
        var at = box.Data.Cast<UglyToad.PdfPig.Tokens.NumericToken>().Select(n => (double)n.Data / 72 * 25.4).ToArray();
        return (at[2] - at[0]) * (at[3] - at[1]);
    }

    private static async Task<byte[]> PdfAsync(Outcome<PrintPdf.Done> made)
    {
        Assert.True(made.Granted, made.Refusal?.Message);
        using var to = new MemoryStream();
        await Task.Run(() => made.Value.WriteTo(to, Cancel), Cancel);
        return to.ToArray();
    }

    private static async Task<PrintLine> LineAsync(PressRoom press)
    {
        await using var db = press.Store.Open();
        return await db.PrintLines.AsNoTracking().SingleAsync(Cancel);
    }

    private static async Task StockRollAsync(PressRoom press) => await press.StockAsync(FreshRoom.Roll, 15_000);

    // Its own profile is of another printer's inks: what is shown of it goes through both.
    private async Task AnotherPaperAsync(PressRoom press)
    {
        var hash = await KeepAsync(ColourSpace.Cmyk);
        await press.ChangeAsync(db =>
        {
            var code = new PaperCode("test-pearl");
            db.Papers.Add(new() { Code = code, Name = "Test Pearl", Class = PaperClass.Pearl, Base = PaperBase.ResinCoated, Coat = Coat.Shiny, Grammage = 260, Feed = Feed.Stack, LineUp = LineUp.In });
            db.Conditions.Add(new() { Code = new("heron-test-pearl"), Printer = FreshRoom.Heron, Paper = code, MediaSetting = "Pearl", Ppi = Ppi, Black = BlackInk.Photo });
            db.Profiles.Add(new() { Number = 9, Condition = new("heron-test-pearl"), Version = 1, Name = "Test Pearl on Heron", FileHash = hash, MadeAt = press.Clock.GetUtcNow(), By = PressRoom.Mira, Standing = Standing.Trusted });
            return Task.CompletedTask;
        });
    }

    private async Task<PressRoom> WithAsync(int width, int height)
    {
        var press = await PressRoom.OpenAsync(("Low Water", width, height, 1));
        var image = await Files.KeepMadeAsync(Pictures.Good(folder, "low water.tif", 600, 400), Cancel);
        var icc = await KeepAsync(ColourSpace.Rgb);
        await press.ChangeAsync(async db =>
        {
            await db.PrintLines.ExecuteUpdateAsync(l => l.SetProperty(x => x.ImageHash, image.Hash).SetProperty(x => x.PreparedHash, (string?)null), Cancel);
            await db.Profiles.ExecuteUpdateAsync(p => p.SetProperty(x => x.FileHash, icc), Cancel);
            await db.Conditions.ExecuteUpdateAsync(c => c.SetProperty(x => x.Ppi, Ppi), Cancel);
        });
        return press;
    }

    private async Task<string> KeepAsync(ColourSpace space)
    {
        var path = Files.NewPath(".icc");
        await File.WriteAllBytesAsync(path, IccProfileWriter.Write(InventedPrinters.Profile(space), IccVersion.V4), Cancel);
        return (await Files.KeepMadeAsync(path, Cancel)).Hash;
    }

    private static Length Mm(decimal mm) => Length.FromMillimetres(mm);
}
