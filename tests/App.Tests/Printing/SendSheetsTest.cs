using System.Globalization;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Printing;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Imaging;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Tests.Printing;

public sealed class SendSheetsTest(EveryPrinter printer) : IDisposable
{
    private const int Ppi = 72; // small files: what is tested is the way, not the picture
    private const int PixelsWide = 1134; // 400 mm at 72 to an inch
    private const int PixelsHigh = 774; // 273 mm

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-send-").FullName;
    private readonly NetworkPrinters network = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private FileShelf Files => new(Path.Combine(folder, "files"));

    public void Dispose()
    {
        network.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task By_hand_the_files_are_made_with_every_print_in_its_place()
    {
        await using var press = await ReadyAsync(HandOver.ByHand);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));

        Assert.StartsWith($"The files of run {run} are made", await SendAsync(press, run), StringComparison.Ordinal);

        var page = (await new ShowSheets(press.Store, network).RunAsync(run, Cancel))!;
        Assert.Equal([(1, 1), (2, 1)], page.Sheets.Select(s => (s.Sheet.Number, s.Sheet.Copies))); // three prints: two on the first sheet
        using var first = NetVips.Image.NewFromFile(Files.PathOf(page.Sheets[0].Sheet.FileHash));
        Assert.Equal((1162, 1655), (first.Width, first.Height)); // A2 less 5 mm on each side: 410 by 584 mm
        Assert.Equal(2L * PixelsWide * PixelsHigh, Dark(first), 4_000.0); // marks and the line of words come on top
    }

    [Fact]
    public async Task Into_a_folder_it_lies_whole_under_its_own_name()
    {
        await using var press = await ReadyAsync(HandOver.Folder);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        await SendAsync(press, run);
        Assert.Equal(
            [$"run-{run}-sheet-1.tif", $"run-{run}-sheet-2.tif"],
            Directory.GetFiles(Path.Combine(folder, "to-print", "heron")).Select(Path.GetFileName).Order());
    }

    // What lies in a driver's folder lies on the disk twice. The disks are pretended; sheets of 1162 by 1655 pixels, four inks of two bytes.
    [Theory]
    [InlineData(HandOver.ByHand, 30.8)]
    [InlineData(HandOver.Folder, 61.5)]
    public async Task On_a_disk_without_room_for_all_sheets_none_is_begun(HandOver way, double needed)
    {
        await using var press = await ReadyAsync(way);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var before = There;

        var says = await SendAsync(press, run, new(_ => (long)(2 * needed * 1e6) - 100_000)); // as much as they take stays free beside them
        Assert.StartsWith(string.Create(CultureInfo.InvariantCulture, $"The disk has no room: {needed} MB are needed"), says, StringComparison.Ordinal);
        Assert.Equal(before, There);
        Assert.Empty((await new ShowSheets(press.Store, network).RunAsync(run, Cancel))!.Sheets);

        Assert.Contains($"files of run {run}", await SendAsync(press, run, new(_ => (long)(2 * needed * 1e6) + 100_000)), StringComparison.Ordinal);
        Assert.Equal(2, (await new ShowSheets(press.Store, network).RunAsync(run, Cancel))!.Sheets.Count);
    }

    [Fact]
    public async Task When_the_disk_fills_up_half_way_nothing_is_handed_over_and_what_is_made_is_not_made_again()
    {
        await using var press = await ReadyAsync(HandOver.Folder);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));

        var asked = 0; // for all, for the first sheet, for the second
        Assert.StartsWith("The disk has no room: ", await SendAsync(press, run, new(_ => ++asked < 3 ? long.MaxValue : 0)), StringComparison.Ordinal);
        Assert.Equal(3, asked);
        var first = Assert.Single((await new ShowSheets(press.Store, network).RunAsync(run, Cancel))!.Sheets).Sheet;
        Assert.Null(first.SentAt);
        Assert.DoesNotContain(There, f => f.Contains("coming", StringComparison.Ordinal) || f.Contains("to-print", StringComparison.Ordinal));

        asked = 0; // for what is left, for the second sheet
        Assert.StartsWith($"The files of run {run} lie in the folder", await SendAsync(press, run, new(_ => ++asked < 3 ? long.MaxValue : 0)), StringComparison.Ordinal);
        Assert.Equal(2, asked);
        var sheets = (await new ShowSheets(press.Store, network).RunAsync(run, Cancel))!.Sheets;
        Assert.Equal((2, first.FileHash), (sheets.Count, sheets[0].Sheet.FileHash));
        Assert.All(sheets, s => Assert.NotNull(s.Sheet.SentAt));
    }

    // Debian's ippeveprinter stands for a printer of the Internet Printing Protocol (RFC 8010, RFC 8011).
    [Fact]
    public async Task Over_the_network_it_arrives_byte_for_byte_and_once()
    {
        await printer.OnAsync();
        await using var press = await ReadyAsync(HandOver.Network);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));

        var earlier = printer.Received;
        Assert.Equal($"Heron has the files of run {run}.", await SendAsync(press, run));
        await SendAsync(press, run); // asked twice: nothing is sent again

        var page = (await new ShowSheets(press.Store, network).RunAsync(run, Cancel))!;
        Assert.All(page.Sheets, s => Assert.NotNull(s.Job));
        var arrived = printer.Received.Except(earlier);
        Assert.Equal(page.Sheets.Select(s => s.Sheet.FileHash).Order(), arrived.Select(Hash).Order());
    }

    [Fact]
    public async Task After_a_kill_while_sending_the_job_is_found_at_the_printer_and_not_sent_again()
    {
        await printer.OnAsync();
        await using var press = await ReadyAsync(HandOver.Network);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        await SendAsync(press, run);
        await using (var db = press.Store.Open())
        {
            // As if the process had died between the printer's answer and our note of it.
            await db.RunSheets.ExecuteUpdateAsync(s => s.SetProperty(x => x.SentAt, (DateTimeOffset?)null).SetProperty(x => x.Job, (int?)null), Cancel);
        }

        var before = printer.Received.Count;
        await SendAsync(press, run);
        Assert.Equal(before, printer.Received.Count);
        await using var after = press.Store.Open();
        Assert.All(await after.RunSheets.ToListAsync(Cancel), s => Assert.True(s.Job > 0 && s.SentAt is not null));
    }

    [Fact]
    public async Task A_printer_that_is_off_is_said_to_be_away_and_gets_it_when_it_is_back()
    {
        await printer.OnAsync();
        await using var press = await ReadyAsync(HandOver.Network);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        await printer.OffAsync();
        Assert.StartsWith("The printer at localhost does not answer.", await SendAsync(press, run), StringComparison.Ordinal);

        await printer.OnAsync();
        Assert.Equal($"Heron has the files of run {run}.", await SendAsync(press, run));
    }

    [Fact]
    public async Task Without_paper_the_printer_says_so_and_what_is_left_of_its_inks()
    {
        await printer.OnAsync();
        await using var press = await ReadyAsync(HandOver.Network);
        var ask = new AskPrinter(press.Store, network);

        await printer.PaperAsync(isIn: false);
        var without = (await ask.RunAsync(FreshRoom.Heron, Cancel)).Value!;
        await printer.PaperAsync(isIn: true);
        var with = (await ask.RunAsync(FreshRoom.Heron, Cancel)).Value!;

        Assert.Contains("out of paper", without.Because);
        Assert.DoesNotContain("out of paper", with.Because);
        Assert.True(with.TakesTiff);
        Assert.Equal([("Toner Waste Tank", 25, true), ("Black Toner", 75, false)], with.Supplies.Select(s => (s.Name, s.Percent!.Value, s.Fills)));
    }

    [Fact]
    public async Task A_sheet_that_jams_stops_the_printer_and_its_job_and_both_go_on_when_it_is_cleared()
    {
        await printer.OnAsync();
        await using var press = await ReadyAsync(HandOver.Network);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        printer.Jammed(true);
        Task<string> sending;
        try
        {
            sending = Task.Run(() => SendAsync(press, run), Cancel); // it takes one job at a time: the second waits for the jam
            await UntilAsync(async () => (await new AskPrinter(press.Store, network).RunAsync(FreshRoom.Heron, Cancel)).Value!.Because.Contains("paper is jammed"));
            Assert.Contains(await JobsAsync(press, run), j => j is { HasEnded: false });
        }
        finally
        {
            printer.Jammed(false);
        }

        Assert.Equal($"Heron has the files of run {run}.", await sending);
        await UntilAsync(async () => (await JobsAsync(press, run)).All(j => j is { Is: "printed" }));
        Assert.DoesNotContain("paper is jammed", (await new AskPrinter(press.Store, network).RunAsync(FreshRoom.Heron, Cancel)).Value!.Because);
    }

    [Fact]
    public async Task A_job_that_the_printer_gives_up_is_said_to_be_given_up()
    {
        await printer.OnAsync();
        await using var press = await ReadyAsync(HandOver.Network);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        printer.Faulty(true);
        try
        {
            await SendAsync(press, run);
            await UntilAsync(async () => (await JobsAsync(press, run)).All(j => j is { Is: "given up" }));
        }
        finally
        {
            printer.Faulty(false);
        }
    }

    // RFC 8011 5.4.11: printer-state 5 is stopped. ippeveprinter never says it of itself.
    [Fact]
    public void A_stopped_printer_is_said_to_be_stopped_and_why()
    {
        var answer = new IppMessage(0, 1);
        answer.Begin(IppMessage.PrinterGroup).Choice("printer-state", 5).Keyword("printer-state-reasons", "media-jam-error", "paused", "marker-supply-empty-error");
        var says = PrinterSays.Of(IppMessage.Read(answer.ToBytes()).FirstOf(IppMessage.PrinterGroup));
        Assert.True(says.IsStopped);
        Assert.Equal(["paper is jammed", "somebody paused it", "an ink is out"], says.Because);
    }

    private async Task<IReadOnlyList<JobSays?>> JobsAsync(PressRoom press, int run) =>
        [.. (await new ShowSheets(press.Store, network).RunAsync(run, Cancel))!.Sheets.Select(s => s.Job)];

    private static async Task UntilAsync(Func<Task<bool>> seen)
    {
        const int Patience = 300; // tenths of a second: a busy machine is slow, not broken
        for (var i = 0; i < Patience; i++)
        {
            if (await seen())
            {
                return;
            }

            await Task.Delay(100, Cancel);
        }

        Assert.Fail("It was not seen in half a minute.");
    }

    private string[] There => [.. Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];

    private Task<string> SendAsync(PressRoom press, int run, DiskRoom? disk = null) =>
        new SendSheets(press.Store, new(Files.Folder, disk), press.Clock, network).DoNowAsync($"Sheets of run {run}", Cancel);

    private async Task<PressRoom> ReadyAsync(HandOver way)
    {
        var path = Files.NewPath(".tif");
        DrawnTiff.Write(path, PixelsWide, PixelsHigh, 3, Ppi, (_, row) => Array.Clear(row));
        var kept = await Files.KeepMadeAsync(path, Cancel);
        var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 3));
        await press.ChangeAsync(async db =>
        {
            (await db.PrintLines.SingleAsync(Cancel)).PreparedHash = kept.Hash;
            var heron = await db.Printers.SingleAsync(Cancel);
            (heron.HandOver, heron.Address) = (way, way is HandOver.Network ? printer.Address : "");
            await db.Conditions.ExecuteUpdateAsync(c => c.SetProperty(x => x.Ppi, Ppi), Cancel);
        });
        return press;
    }

    private static long Dark(NetVips.Image sheet)
    {
        using var dark = sheet.ExtractBand(0) < 32_768.0;
        return (long)Math.Round(dark.Avg() / 255 * sheet.Width * sheet.Height);
    }

    private static string Hash(string path) => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path)));
}
