using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Files;
using Goodsheet.App.Opening;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Tests.Opening;

/// <summary>The opening day: all of every list or nothing, and every wrong line named.</summary>
public sealed class BringInRoomTest(PostgresServer postgres)
{
    private const string Papers = "name,class,grammage\nInvented Matte 230,matte,230\nInvented Rag 300,smooth fine art,300\n";
    private const string Suppliers = "name,cut_off,lead_days,email\nInvented Papers,14:30,1,orders@invented.example\n";
    private const string Clients = "name,contact\nAn invented gallery,at the door\n";
    private const string Prices = "supplier,paper,format,pack,price\nInvented Papers,Invented Rag 300,A2,25,120.50\n";
    private const string Shelf = "paper,format,quantity,best_before,place\nInvented Rag 300,A2,25,2028-01-31,drawer 1\ninvented-matte-230,roll 610,12.5,,rack\n";
    private const string Ink = "name,kind,printer,channel,ml,quantity,reorder_at\nHeron matte black,ink,Heron,matte black,80,2,1\nTrimmer blades,blade,,,,5,2\n";

    private static readonly PersonName Mira = new("Mira");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task A_whole_room_comes_in_by_one_pass_whatever_the_order_of_its_lists(RoomStore.Kind kind)
    {
        await using var room = await FurnishedAsync(kind);
        (string, string)[] lists = [("shelf.csv", Shelf), ("prices.csv", Prices), ("ink.csv", Ink), ("clients.csv", Clients), ("suppliers.csv", Suppliers), ("papers.csv", Papers)];
        var look = await AskAsync(room, DecimalMark.Point, dryRun: true, lists);
        Assert.Equal((0, 9, false), (look.Wrong, look.Of(LineState.Fine), look.TakenIn));
        await using (var db = room.Store.Open())
        {
            Assert.Empty(await db.Lots.ToListAsync(Cancel));
            Assert.Empty(await db.Suppliers.ToListAsync(Cancel));
        }

        var done = await AskAsync(room, DecimalMark.Point, dryRun: false, lists);
        Assert.True(done.TakenIn);
        await using var after = room.Store.Open();
        Assert.Equal([25L, 12_500L], await ShelfLines.Left(after).OrderBy(l => l.Lot).Select(l => l.OnShelf).ToListAsync(Cancel));
        Assert.Equal(120.50m, (await after.Prices.SingleAsync(Cancel)).Price);
        Assert.Equal([5L, 2L], (await new ShowConsumables(room.Store, clock).RunAsync(Cancel)).All.Select(s => s.Left).OrderDescending());

        // Sent again it counts nothing twice.
        var again = await AskAsync(room, DecimalMark.Point, dryRun: false, lists);
        Assert.Equal((0, 8), (again.Wrong, again.Of(LineState.Known))); // a price alone is written again, to the same
        Assert.Equal(12_525, await ShelfLines.Left(after).SumAsync(l => l.OnShelf, Cancel));
    }

    [Fact]
    public async Task One_wrong_line_and_nothing_is_taken_in_and_every_wrong_line_is_named()
    {
        await using var room = await FurnishedAsync(RoomStore.Kind.Sqlite);
        const string wrong = "paper,format,quantity,best_before\nInvented Rag 300,A2,25,\nNo such paper,A2,25,\nInvented Rag 300,A0,25,\nInvented Rag 300,A2,0,2027-01-01\nInvented Rag 300,A2,-5,2027-01-02\nInvented Rag 300,A2,1000000000000,2027-01-03\n"
            + "Invented Rag 300,A2,1e12,2027-01-04\nInvented Rag 300,A2,\"12,5\",2027-01-05\nInvented Rag 300,A2,25,\nInvented Rag 300,A2,25,31.1.2027\nInvented Rag 300,A2\n";
        var done = await AskAsync(room, DecimalMark.Point, dryRun: false, ("papers.csv", Papers), ("shelf.csv", wrong));
        var lines = done.Files.Single(f => f.Kind is OpeningKind.Shelf).Lines;
        Assert.Equal([3, 4, 5, 6, 7, 8, 9, 10, 11, 12], lines.Where(l => l.State is LineState.Wrong).Select(l => l.Line));
        Assert.Contains("no paper “No such paper”", lines[1].Says, StringComparison.Ordinal);
        Assert.Contains("no format “A0”", lines[2].Says, StringComparison.Ordinal);
        Assert.Contains("from 1 to 1000000", lines[5].Says, StringComparison.Ordinal);
        Assert.Contains("“12,5” is no whole number", lines[7].Says, StringComparison.Ordinal);
        Assert.Equal("says again what line 2 says", lines[8].Says);
        await using var db = room.Store.Open();
        Assert.Empty(await db.Lots.ToListAsync(Cancel));
        Assert.DoesNotContain(await db.Papers.Select(p => p.Name).ToListAsync(Cancel), n => n.StartsWith("Invented", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_decimal_mark_is_what_was_said_never_what_it_looks_like()
    {
        await using var room = await FurnishedAsync(RoomStore.Kind.Sqlite);
        const string comma = "paper;format;quantity\nTest Cotton 300;roll 610;12,5\n";
        const string point = "paper;format;quantity\nTest Cotton 300;roll 610;12.5\n";
        Assert.Equal(1, (await AskAsync(room, DecimalMark.Point, dryRun: true, ("shelf.csv", comma))).Wrong);
        Assert.Equal(1, (await AskAsync(room, DecimalMark.Comma, dryRun: true, ("shelf.csv", point))).Wrong);
        Assert.True((await AskAsync(room, DecimalMark.Comma, dryRun: false, ("shelf.csv", comma))).TakenIn);
        await using var db = room.Store.Open();
        Assert.Equal(12_500, (await db.Moves.SingleAsync(Cancel)).Quantity);
    }

    [Theory]
    [InlineData("", "is empty")]
    [InlineData("colour,size\nred,1\n", "names no list")]
    [InlineData("paper,format,quantity,colour\nx,A2,1,red\n", "“colour”, which is not known")]
    [InlineData("paper,format,quantity\n", "no line under its heading")]
    public async Task A_file_that_is_no_list_is_said_to_be_none(string text, string says)
    {
        await using var room = await FurnishedAsync(RoomStore.Kind.Sqlite);
        var done = await AskAsync(room, DecimalMark.Point, dryRun: false, ("list.csv", text), ("clients.csv", Clients));
        Assert.Contains(says, done.Files.Single(f => f.Kind is null).Lines[0].Says, StringComparison.Ordinal);
        await using var db = room.Store.Open();
        Assert.Empty(await db.Clients.ToListAsync(Cancel));
    }

    [Fact]
    public async Task A_profile_comes_with_its_printer_and_paper_and_is_new_until_it_is_checked()
    {
        await using var room = await FurnishedAsync(RoomStore.Kind.Sqlite);
        const string list = "file,printer,paper,media_setting\ncotton.icc,Heron,Test Cotton 300,heavy matte\n";
        var alone = await AskAsync(room, DecimalMark.Point, dryRun: false, ("profiles.csv", list));
        Assert.Contains("did not come", alone.Files[0].Lines[0].Says, StringComparison.Ordinal);
        var junk = await AskAsync(room, DecimalMark.Point, dryRun: false, ("profiles.csv", list), ("cotton.icc", "not a profile"));
        Assert.Contains("no profile that can be read", junk.Files[0].Lines[0].Says, StringComparison.Ordinal);
        Assert.Equal(1, (await AskAsync(room, DecimalMark.Point, dryRun: false, ("clients.csv", Clients), ("stray.icc", "x"))).Wrong);
        await using var db = room.Store.Open();
        Assert.Empty(await db.Profiles.ToListAsync(Cancel));

        var icc = Path.Combine(room.Folder, "cotton.icc");
        await File.WriteAllBytesAsync(icc, IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), IccVersion.V4), Cancel);
        var list2 = Path.Combine(room.Folder, "profiles.csv");
        var files = new FileShelf(Path.Combine(room.Folder, "files"));
        var bring = new BringInRoom(room.Store, files, clock);
        var done = (await bring.RunAsync(new(Mira, [("profiles.csv", list2), ("cotton.icc", icc)], DecimalMark.Point, DryRun: false), Cancel)).Value!;
        Assert.True(done.TakenIn);
        var profile = await db.Profiles.SingleAsync(Cancel);
        Assert.Equal((Standing.New, 1, true), (profile.Standing, profile.Version, files.Has(profile.FileHash)));
        Assert.Equal("heavy matte", (await db.Conditions.SingleAsync(Cancel)).MediaSetting);
        var again = (await bring.RunAsync(new(Mira, [("profiles.csv", list2), ("cotton.icc", icc)], DecimalMark.Point, DryRun: false), Cancel)).Value!;
        Assert.Equal(LineState.Known, again.Files[0].Lines[0].State);
    }

    private async Task<FreshRoom> FurnishedAsync(RoomStore.Kind kind) => await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();

    private async Task<BringInRoom.Done> AskAsync(FreshRoom room, DecimalMark mark, bool dryRun, params (string Name, string Text)[] lists)
    {
        var paths = new List<(string, string)>();
        foreach (var (name, text) in lists)
        {
            var path = Path.Combine(room.Folder, name);
            await File.WriteAllTextAsync(path, text, Cancel);
            paths.Add((name, path));
        }

        return (await new BringInRoom(room.Store, new FileShelf(Path.Combine(room.Folder, "files")), clock).RunAsync(new(Mira, paths, mark, dryRun), Cancel)).Value!;
    }
}
