using Goodsheet.Colour.Icc;

namespace Goodsheet.Imaging.Tests;

/// <summary>Large files are not begun on a disk that has no room for them. The disks are pretended.</summary>
public sealed class DiskRoomTest
{
    // 900 by 600 pixels of three channels in 16 bits.
    private const long OfThePrint = 900 * 600 * 3 * 2;

    private static readonly PrintRecipe Print = new() { WidthMm = 90, HeightMm = 60, Ppi = 254, Intent = RenderingIntent.RelativeColorimetric, TrimMarks = false };

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(1_000_000, 1_999_999, false)]
    [InlineData(1_000_000, 2_000_000, true)]
    [InlineData(500_000_000, 1_000_000_000, true)]
    [InlineData(2_000_000_000, 2_499_999_999, false)]
    [InlineData(2_000_000_000, 2_500_000_000, true)]
    public void As_much_again_stays_free_and_at_most_half_a_gigabyte(long bytes, long free, bool fits) =>
        Assert.Equal(fits, With(free).Lacks("out.tif", bytes) is null);

    [Fact]
    public void How_much_is_needed_and_how_much_is_free_is_said() => Assert.Equal(
        "The disk has no room: 2.0 GB are needed and 500 MB have to stay free, but only 12.3 MB are. Nothing was written. Make room on it, then try again.",
        With(12_300_000).Lacks("out.tif", 2_000_000_000)?.Message);

    [Fact]
    public void Where_the_system_does_not_say_the_file_is_begun() => Assert.Null(new DiskRoom(_ => null).Lacks("out.tif", long.MaxValue / 4));

    [Fact]
    public void This_machine_says_what_is_free_where_a_file_will_be()
    {
        using var scratch = new Scratch();
        Assert.Null(DiskRoom.OfThisMachine.Lacks(scratch["out.tif"], 1));
        Assert.NotNull(DiskRoom.OfThisMachine.Lacks(scratch["out.tif"], long.MaxValue / 4)); // more than any disk has
    }

    [Fact]
    public void A_print_is_made_where_there_is_room_and_refused_a_byte_below_leaving_nothing()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 900, 600);
        Assert.Contains("no room: 3.2 MB are needed", Make(OfThePrint + OfThePrint - 1).Fault!.Message, StringComparison.Ordinal);
        Assert.Equal(["in.tif"], scratch.Files);
        Assert.Null(Make(OfThePrint + OfThePrint).Fault);

        PictureResult<Prepared> Make(long free) => PrintPreparation.Run(picture, Scratch.Printer, Print, scratch["out.tif"], null, With(free), Cancel);
    }

    [Fact]
    public void Pieces_are_counted_together()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 900, 600);
        var half = new PrintWindow(0, 0, 450, 600);
        (PrintWindow, string)[] both = [(half, scratch["a.tif"]), (half with { X = 450 }, scratch["b.tif"])];
        Assert.NotNull(PrintPieces.Run(picture, Scratch.Printer, Print, both, null, With(OfThePrint + OfThePrint - 1), Cancel).Fault);
        Assert.Equal(["in.tif"], scratch.Files);
        Assert.Null(PrintPieces.Run(picture, Scratch.Printer, Print, both, null, With(OfThePrint + OfThePrint), Cancel).Fault);
    }

    [Fact]
    public void Pieces_that_are_there_already_go_when_a_later_one_cannot_be_put_in_its_place()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 900, 600);
        Directory.CreateDirectory(scratch["b.tif"]); // no file can take that name
        (PrintWindow, string)[] both = [(new(0, 0, 10, 10), scratch["a.tif"]), (new(0, 0, 10, 10), scratch["b.tif"])];
        Assert.NotNull(PrintPieces.Run(picture, Scratch.Printer, Print, both, cancel: Cancel).Fault);
        Assert.Equal(["in.tif"], scratch.Files);
    }

    [Fact]
    public void A_sheet_is_counted_whole_and_refused_leaving_nothing()
    {
        using var scratch = new Scratch();
        var plan = new SheetPlan(90, 60, 254, [new(scratch.Ramp("in.tif", 100, 100, deep: true), 1, 2, Turned: false)], []);
        Assert.NotNull(SheetFile.Write(plan, null, scratch["sheet.tif"], null, With(OfThePrint + OfThePrint - 1), Cancel).Fault);
        Assert.Equal(["in.tif"], scratch.Files);
        Assert.Null(SheetFile.Write(plan, null, scratch["sheet.tif"], null, With(OfThePrint + OfThePrint), Cancel).Fault);
    }

    private static DiskRoom With(long free) => new(_ => free);
}
