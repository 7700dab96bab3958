using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Orders;

public sealed class ImportOrdersTest : IDisposable
{
    private const string Heading = "client,reference,picture,title,paper,width_mm,height_mm,border_mm,edge,around_mm,copies,promised";

    // The whole length belongs to the slow tests; the rules are the same at any length.
    private static readonly int Lines = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 10_000 : 1_000;

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-list-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private string Inbox => Directory.CreateDirectory(Path.Combine(folder, "pictures")).FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Of_many_lines_three_are_wrong_each_is_refused_by_itself_and_the_rest_goes_on()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        Pictures.Good(Inbox, "a.tif");
        var list = new StringBuilder(Heading).Append('\n');
        for (var i = 2; i <= Lines + 1; i++)
        {
            list.Append(i switch
            {
                5 => $"An invented shop,S5,a.tif,\"Never closed,test-cotton,300,200,10,,,1,2026-03-06\n",
                77 => $"An invented shop,S77,a.tif,T77,no-such-paper,300,200,10,,,1,2026-03-06\n",
                900 => $"An invented shop,S900,a.tif,T900,test-cotton,wide,200,10,,,1,2026-03-06\n",
                _ => $"An invented shop,S{i % 40},a.tif,T{i},test-cotton,300,200,10,,,1,2026-03-06 14:30\n",
            });
        }

        var done = (await ImportAsync(press, list.ToString())).Value!;
        Assert.Equal((Lines - 3, 0), (done.Taken, done.TakenBefore));
        Assert.Equal([5, 77, 900], done.Refused.Select(l => l.Number));
        Assert.Contains("quote", done.Refused.First().Says, StringComparison.Ordinal);

        await using var db = press.Store.Open();
        Assert.Equal(Lines - 3, await db.PrintLines.CountAsync(l => l.Order != PressRoom.Order, Cancel));
        Assert.Equal(40, await db.Orders.CountAsync(o => o.Number != PressRoom.Order, Cancel)); // one for each reference
        Assert.Equal(Lines - 3, await db.Work.CountAsync(Cancel)); // each picture waits to be looked at

        // Mended and brought in whole again: only what was wrong is new.
        var again = (await ImportAsync(press, list.ToString().Replace("no-such-paper", "test-cotton", StringComparison.Ordinal))).Value!;
        Assert.Equal((1, Lines - 3, 2), (again.Taken, again.TakenBefore, again.Refused.Count()));
    }

    [Theory]
    [InlineData("../room.db")]
    [InlineData("..")]
    [InlineData("/etc/hostname")]
    [InlineData("sub/a.tif")]
    [InlineData(@"..\a.tif")]
    [InlineData("C:a.tif")]
    [InlineData(".hidden.tif")]
    [InlineData("a.tif.")]
    [InlineData("~a.tif")]
    [InlineData("missing.tif")]
    [InlineData("link.tif")]
    [InlineData("")]
    public async Task A_name_that_is_not_a_plain_file_of_the_folder_is_refused(string name)
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        var outside = Pictures.Good(folder, "outside.tif");
        File.CreateSymbolicLink(Path.Combine(Inbox, "link.tif"), outside);
        var done = (await ImportAsync(press, $"{Heading}\n{Line(name)}")).Value!;
        Assert.Equal((0, 1), (done.Taken, done.Refused.Count()));
    }

    [Fact]
    public async Task Pictures_that_cannot_be_printed_are_refused_with_what_is_wrong_and_nought_pixels_an_inch_do_not_matter()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        Pictures.Good(Inbox, "cmyk.tif", channels: 4);
        Pictures.Good(Inbox, "line.tif", width: 1, height: 100_000);
        Pictures.CutShort(Inbox, "short.tif");
        Pictures.Lying(Inbox, "lying.tif");
        Pictures.Good(Inbox, "nought.tif", ppi: 0);
        await File.WriteAllTextAsync(Path.Combine(Inbox, "words.tif"), "no picture at all", Cancel);
        string[] names = ["cmyk.tif", "line.tif", "short.tif", "lying.tif", "words.tif", "nought.tif"];
        var done = (await ImportAsync(press, $"{Heading}\n{string.Join('\n', names.Select(Line))}")).Value!;

        var said = done.Lines.ToDictionary(l => names[l.Number - 2]);
        Assert.Contains("CMYK picture without a profile", said["cmyk.tif"].Says, StringComparison.Ordinal);
        Assert.Contains("a line, not a picture", said["line.tif"].Says, StringComparison.Ordinal);
        Assert.Contains("cut short or damaged", said["short.tif"].Says, StringComparison.Ordinal);
        Assert.Equal(ImportOrders.What.Refused, said["lying.tif"].What);
        Assert.Contains("not a TIFF, JPEG or PNG", said["words.tif"].Says, StringComparison.Ordinal);
        Assert.Equal(ImportOrders.What.Taken, said["nought.tif"].What); // the size is asked for in mm
        Assert.Single(Directory.EnumerateFiles(Path.Combine(folder, "files"), "*", SearchOption.AllDirectories));
    }

    [Fact]
    public async Task A_look_says_the_same_and_keeps_nothing()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        Pictures.Good(Inbox, "a.tif");
        var look = (await ImportAsync(press, $"{Heading}\n{Line("a.tif")}\n{Line("b.tif")}", look: true)).Value!;
        Assert.Equal((1, 1), (look.Taken, look.Refused.Count()));
        await using var db = press.Store.Open();
        Assert.Equal(1, await db.Orders.CountAsync(Cancel));
        Assert.False(Directory.Exists(Path.Combine(folder, "files")));
    }

    [Fact]
    public async Task Semicolons_decimal_commas_wraps_and_times_are_read()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        Pictures.Good(Inbox, "a.tif");
        var done = (await ImportAsync(press, $"{Heading.Replace(',', ';')}\r\nAn invented shop;;a.tif;\"Low; Water\";test-cotton;300,5;200;0;wrap;40;2;2026-03-06\r\n")).Value!;
        Assert.True(done.Taken == 1, string.Join(", ", done.Refused));
        await using var db = press.Store.Open();
        var line = await db.PrintLines.SingleAsync(l => l.Order != PressRoom.Order, Cancel);
        Assert.Equal(("Low; Water", EdgeKind.Wrap, 2), (line.Title, line.Edge, line.Copies));
        Assert.Equal(Length.FromMillimetres(380.5m), line.FullWidth);
    }

    [Fact]
    public async Task A_list_without_its_heading_or_folder_is_refused_whole()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        Assert.IsType<ImportOrders.NoFolder>((await new ImportOrders(press.Store, Files, press.Clock).RunAsync(new(PressRoom.Mira, Heading, false), cancel: Cancel)).Refusal);
        Assert.Contains("first line", (await ImportAsync(press, "a,b\n1,2")).Refusal!.Message, StringComparison.Ordinal);
        Assert.Contains("No order", (await ImportAsync(press, $"{Heading}\n\n")).Refusal!.Message, StringComparison.Ordinal);
    }

    private FileShelf Files => new(Path.Combine(folder, "files"));

    private static string Line(string picture) => $"An invented shop,,{picture},,test-cotton,300,200,10,,,1,2026-03-06";

    private Task<Goodsheet.Room.Outcome<ImportOrders.Done>> ImportAsync(PressRoom press, string csv, bool look = false) =>
        new ImportOrders(press.Store, Files, press.Clock).RunAsync(new(PressRoom.Mira, csv, look, Inbox), cancel: Cancel);
}
