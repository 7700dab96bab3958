using Goodsheet.App.Orders;
using Goodsheet.App.Printing;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Orders;

/// <summary>Tiles, strips and sheets of proofs on a disk that has no room for them, or none any more. The disks are pretended.</summary>
public sealed class RoomOnTheDiskTest : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-room-").FullName;
    private readonly string picture;
    private readonly string profile;

    public RoomOnTheDiskTest()
    {
        (picture, profile) = (Pictures.Good(folder, "in.tif", 600, 400), Path.Combine(folder, "paper.icc"));
        File.WriteAllBytes(profile, IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), IccVersion.V4));
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static PrintRecipe Recipe => new() { WidthMm = 300, HeightMm = 200, Ppi = 100, Intent = RenderingIntent.RelativeColorimetric };

    private string[] There => [.. Directory.EnumerateFiles(folder).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Tiles_are_refused_before_the_first_is_begun()
    {
        var cut = await CutAsync(new(_ => 1_000_000));
        Assert.Contains("The disk has no room: ", cut.Refusal!.Message, StringComparison.Ordinal);
        Assert.Equal(["in.tif", "paper.icc"], There);
    }

    // Asked for all, for the pieces, for each tile, and at last for the PDF.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(6)]
    public async Task Tiles_for_which_the_room_gives_out_half_way_leave_nothing_behind(int enough)
    {
        var asked = 0;
        var cut = await CutAsync(new(_ => asked++ < enough ? long.MaxValue : 0));
        Assert.Equal(enough + 1, asked);
        Assert.Contains("The disk has no room: ", cut.Refusal!.Message, StringComparison.Ordinal);
        Assert.Equal(["in.tif", "paper.icc"], There);
    }

    [Fact]
    public async Task Where_there_is_room_all_tiles_and_the_pdf_are_made()
    {
        var asked = 0;
        var cut = await CutAsync(new(_ => asked++ < 7 ? long.MaxValue : 0));
        Assert.Equal(4, cut.Value!.Tiling.Tiles.Count);
        Assert.Equal([.. cut.Value.Files.Select(f => Path.GetFileName(f)).Concat(["in.tif", "paper.icc"]).Order(StringComparer.Ordinal)], There);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void A_test_strip_and_the_piece_it_is_made_of_leave_nothing_behind(int enough)
    {
        var asked = 0;
        var made = TestStripFile.Write(
            new(picture, File.ReadAllBytes(profile), Recipe, 20, 20, 80, 60, "a strip", Path.Combine(folder, "strip.tif")), null, new(_ => asked++ < enough ? long.MaxValue : 0), Cancel);
        Assert.Contains("The disk has no room: ", made.Fault!.Message, StringComparison.Ordinal);
        Assert.Equal(["in.tif", "paper.icc"], There);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(3)]
    public void Proofs_and_the_cells_they_are_made_of_leave_nothing_behind(int enough)
    {
        var asked = 0;
        ProofCell[] cells = [new() { Label = "one", Intent = RenderingIntent.Perceptual }, new() { Label = "two", Intent = RenderingIntent.RelativeColorimetric }];
        var made = ProofSheetFile.Write(
            new(picture, File.ReadAllBytes(profile), Recipe, 1.5, cells, 200, 150, "two proofs", Path.Combine(folder, "proofs.tif")), null, new(_ => asked++ < enough ? long.MaxValue : 0), Cancel);
        Assert.Contains("The disk has no room: ", made.Fault!.Message, StringComparison.Ordinal);
        Assert.Equal(["in.tif", "paper.icc"], There);
    }

    private Task<Room.Outcome<CutTiles.Done>> CutAsync(DiskRoom disk) => new CutTiles(TimeProvider.System).RunAsync(
        new(picture, profile, Recipe, Length.FromMillimetres(210), Length.FromMillimetres(148), Length.FromMillimetres(10), folder, disk), null, Cancel);
}
