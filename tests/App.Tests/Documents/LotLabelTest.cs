using Goodsheet.App.Documents;
using Goodsheet.App.Shelf;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Documents;

public sealed class LotLabelTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_label_says_what_is_in_the_box_and_its_code_opens_the_lot_at_the_stated_address()
    {
        await using var press = await PressRoom.OpenAsync();
        await press.ChangeAsync(async db => (await db.Settings.FindAsync([1], Cancel))!.Address = "http://192.0.2.20:5080/");
        var lot = await press.StockAsync(FreshRoom.A2, 25);
        var label = (await new LotLabel(press.Store, press.Clock).RunAsync(new([lot]), Cancel)).Value!;

        Assert.Equal([(100.0, 62.0)], PdfReading.Sizes(label.Pdf));
        var text = PdfReading.Text(label.Pdf);
        foreach (var said in (string[])["Test Cotton 300", "A2, 25 sheets, coated one side, matte black", lot.Value, "Best before 31 Jan 2028", "came 2 Mar 2026"])
        {
            Assert.Contains(said, text, StringComparison.Ordinal);
        }

        Assert.Equal($"http://192.0.2.20:5080/shelf/lots/{lot}", PdfReading.Code(label.Pdf));
        Assert.Empty(PdfReading.Outside(label.Pdf));
    }

    [Fact]
    public async Task A_room_that_has_not_stated_its_address_prints_labels_without_a_code()
    {
        await using var press = await PressRoom.OpenAsync();
        var lot = await press.StockAsync(FreshRoom.A4, 1);
        var label = (await new LotLabel(press.Store, press.Clock).RunAsync(new([lot]), Cancel)).Value!;
        Assert.Null(PdfReading.Code(label.Pdf));
        Assert.Contains("A4, 1 sheet,", PdfReading.Text(label.Pdf), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sheet_of_labels_begins_at_the_first_free_one_and_goes_on_to_the_next_sheet()
    {
        await using var press = await PressRoom.OpenAsync();
        var lots = new List<LotCode>();
        for (var i = 0; i < 5; i++)
        {
            lots.Add(await press.StockAsync(FreshRoom.A2, 10 + i));
        }

        var sheet = (await new LotLabel(press.Store, press.Clock).RunAsync(new(lots, OnASheet: true, FirstFree: 20), Cancel)).Value!;
        Assert.Equal([(210.0, 297.0), (210.0, 297.0)], PdfReading.Sizes(sheet.Pdf));
        Assert.Contains(lots[1].Value, PdfReading.Text(sheet.Pdf, page: 1), StringComparison.Ordinal);
        Assert.DoesNotContain(lots[2].Value, PdfReading.Text(sheet.Pdf, page: 1), StringComparison.Ordinal);
        Assert.Contains(lots[4].Value, PdfReading.Text(sheet.Pdf, page: 2), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_very_long_name_stays_on_the_label_and_leaves_the_number_whole()
    {
        await using var press = await PressRoom.OpenAsync();
        await press.ChangeAsync(async db =>
        {
            (await db.Papers.FindAsync([FreshRoom.Cotton], Cancel))!.Name = "Extraordinarily Warm Hand-Finished Museum Cotton of Nether Aldern 1150";
            (await db.Settings.FindAsync([1], Cancel))!.Address = "http://a-rather-long-name-of-a-desk-in-the-print-room.invented.example:5080";
        });
        var lot = await press.StockAsync(FreshRoom.A2, 25);
        foreach (var onASheet in (bool[])[false, true])
        {
            var label = (await new LotLabel(press.Store, press.Clock).RunAsync(new([lot], onASheet), Cancel)).Value!;
            Assert.Empty(PdfReading.Outside(label.Pdf));
            Assert.Contains(lot.Value, PdfReading.Text(label.Pdf), StringComparison.Ordinal);
            Assert.Contains("…", PdfReading.Text(label.Pdf), StringComparison.Ordinal);
            Assert.EndsWith($"/shelf/lots/{lot}", PdfReading.Code(label.Pdf), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Paper_that_is_not_for_clients_says_so_on_its_label()
    {
        await using var press = await PressRoom.OpenAsync();
        var lot = await press.StockAsync(FreshRoom.A2, 25);
        press.Clock.SetUtcNow(new(2028, 2, 1, 9, 0, 0, TimeSpan.Zero));
        var label = (await new LotLabel(press.Store, press.Clock).RunAsync(new([lot]), Cancel)).Value!;
        Assert.Contains("OUT OF DATE: for tests only", PdfReading.Text(label.Pdf), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(22)]
    public async Task A_first_label_that_is_not_on_the_sheet_is_refused(int first)
    {
        await using var press = await PressRoom.OpenAsync();
        var asked = await new LotLabel(press.Store, press.Clock).RunAsync(new([new("1")], true, first), Cancel);
        Assert.IsType<LotLabel.CannotBeLaid>(asked.Refusal);
        Assert.Equal(new NoSuchLot(new("1")), (await new LotLabel(press.Store, press.Clock).RunAsync(new([new("1")]), Cancel)).Refusal);
    }
}
