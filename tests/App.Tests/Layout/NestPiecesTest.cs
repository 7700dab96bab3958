using System.Text.Json;
using System.Xml.Linq;
using Goodsheet.App.Layout;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Layout;

public sealed class NestPiecesTest : IDisposable
{
    private const string Heading = "name,width_mm,height_mm,copies\n";
    private static readonly Stock Roll = Stock.Roll(Length.FromMillimetres(610), default, Length.FromMillimetres(5));
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-nest-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task A_list_becomes_a_layout_a_cut_list_and_a_drawing()
    {
        var done = (await NestAsync(Heading + "Harbour,297,420,2\r\n\"Dunes, <east>\",210,297.5,3\n\n")).Value!;
        Assert.Empty(LayoutVerifier.Check(done.Nest));
        using var json = JsonDocument.Parse(await File.ReadAllTextAsync(At("layout.json"), TestContext.Current.CancellationToken));
        var sheet = json.RootElement.GetProperty("sheets")[0];
        Assert.Equal(NestReport.ThisForm, json.RootElement.GetProperty("form").GetString());
        Assert.Equal(5, sheet.GetProperty("pieces").GetArrayLength());
        Assert.Equal(Enumerable.Range(1, sheet.GetProperty("cuts").GetArrayLength()), sheet.GetProperty("cuts").EnumerateArray().Select(c => c.GetProperty("number").GetInt32()));
        var drawing = XDocument.Load(At("layout.svg"));
        Assert.Contains(drawing.Descendants(), e => e.Value == "Dunes, <east>");
        Assert.Equal("img", drawing.Root!.Attribute("role")?.Value);
    }

    [Fact]
    public async Task Nothing_but_the_finished_files_is_left_behind()
    {
        await NestAsync(Heading + "Harbour,297,420,2");
        Assert.Equal(["layout.json", "layout.svg", "pieces.csv"], folder.GetFiles().Select(f => f.Name).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("Harbour,297,420", 2)]
    [InlineData("Harbour,297,420,1\nDunes,-210,297,1", 3)]
    [InlineData("Harbour,297,420,0", 2)]
    [InlineData("Harbour,297,420,2001", 2)]
    [InlineData("Harbour,0,420,1", 2)]
    [InlineData("Harbour,1e9,420,1", 2)]
    [InlineData("\"Harbour,297,420,1", 2)]
    [InlineData(",297,420,1", 2)]
    [InlineData("Harbour,297,420,1\n\nDunes,wide,297,1", 4)]
    public async Task A_line_that_cannot_be_read_is_named_and_nothing_is_written(string lines, int bad)
    {
        var refusal = Assert.IsType<PieceFile.BadLine>((await NestAsync(Heading + lines)).Refusal);
        Assert.Equal(bad, refusal.Line);
        Assert.Equal(["pieces.csv"], folder.GetFiles().Select(f => f.Name));
    }

    [Fact]
    public async Task Another_heading_is_refused() =>
        Assert.Equal(1, Assert.IsType<PieceFile.BadLine>((await NestAsync("a,b,c\nx,1,2")).Refusal).Line);

    [Fact]
    public async Task A_huge_list_is_refused_unread() =>
        Assert.IsType<PieceFile.TooBig>((await NestAsync(new string('a', PieceFile.MostBytes + 1))).Refusal);

    [Fact]
    public async Task A_piece_wider_than_the_roll_is_refused() =>
        Assert.IsType<NestPacker.TooBig>((await NestAsync(Heading + "Mural,700,700,1")).Refusal);

    [Fact]
    public async Task A_folder_that_is_not_there_is_refused()
    {
        await File.WriteAllTextAsync(At("pieces.csv"), Heading + "Harbour,297,420,2", TestContext.Current.CancellationToken);
        var outcome = await new NestPieces(TimeProvider.System).RunAsync(
            new(At("pieces.csv"), Roll, true, TimeSpan.Zero, 1, At("nowhere/layout.json")), TestContext.Current.CancellationToken);
        Assert.IsType<NestPieces.NoFolder>(outcome.Refusal);
    }

    private async Task<Room.Outcome<NestPieces.Done>> NestAsync(string csv)
    {
        await File.WriteAllTextAsync(At("pieces.csv"), csv);
        return await new NestPieces(TimeProvider.System).RunAsync(
            new(At("pieces.csv"), Roll, MayTurn: true, TimeSpan.FromMilliseconds(20), Seed: 1, At("layout.json"), At("layout.svg")));
    }

    private string At(string name) => Path.Combine(folder.FullName, name);
}
