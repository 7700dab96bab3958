using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

public sealed class PrintPiecesTest
{
    private static readonly PrintRecipe Big = new() { WidthMm = 90, HeightMm = 60, Ppi = 254, Intent = RenderingIntent.RelativeColorimetric, TrimMarks = false };

    // The whole is 900 by 600 pixels; three windows: one inside, one at a corner, one that crosses the first.
    private static readonly PrintWindow[] Windows = [new(311, 207, 120, 77), new(700, 500, 200, 100), new(0, 199, 400, 33)];

    [Theory]
    [InlineData(false, 400, 300)]
    [InlineData(true, 1800, 1100)]
    [InlineData(false, 900, 600)]
    public void Pieces_are_pixel_for_pixel_what_stands_in_the_whole_print(bool cmyk, int width, int height)
    {
        using var scratch = new Scratch();
        var (picture, printer) = (scratch.Ramp("in.tif", width, height), cmyk ? Scratch.CmykPrinter : Scratch.Printer);
        Assert.Null(Scratch.Prepare(picture, printer, Big, scratch["whole.tif"]).Fault);
        var made = PrintPieces.Run(picture, printer, Big, [.. Windows.Select((w, i) => (w, scratch[$"piece-{i}.tif"]))], cancel: TestContext.Current.CancellationToken);
        Assert.Null(made.Fault);
        using var whole = Image.NewFromFile(scratch["whole.tif"], memory: true);
        foreach (var (at, i) in Windows.Select((w, i) => (w, i)))
        {
            using var piece = Image.NewFromFile(scratch[$"piece-{i}.tif"], memory: true);
            using var cut = whole.Crop(at.X, at.Y, at.Width, at.Height);
            Assert.Equal(cut.WriteToMemory<ushort>(), piece.WriteToMemory<ushort>());
            Assert.Equal(Big.Ppi, piece.Xres * 25.4, 2);
            Assert.Equal(printer, (byte[])piece.Get("icc-profile-data"));
        }
    }

    [Theory]
    [InlineData(-1, 0, 10, 10)]
    [InlineData(0, 0, 0, 10)]
    [InlineData(891, 0, 10, 10)]
    [InlineData(0, 591, 10, 10)]
    [InlineData(0, int.MaxValue, 10, 10)]
    public void A_piece_that_lies_outside_is_refused_and_nothing_is_left(int x, int y, int width, int height)
    {
        using var scratch = new Scratch();
        var made = PrintPieces.Run(scratch.Ramp("in.tif", 90, 60), Scratch.Printer, Big, [(new(x, y, width, height), scratch["piece.tif"])], cancel: TestContext.Current.CancellationToken);
        Assert.Contains("900 × 600", made.Fault!.Message, StringComparison.Ordinal);
        Assert.Equal(["in.tif"], scratch.Files);
    }

    [Fact]
    public void A_damaged_picture_leaves_none_of_the_pieces()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 900, 600);
        using (var file = File.OpenWrite(picture))
        {
            file.SetLength(file.Length / 2);
        }

        var made = PrintPieces.Run(picture, Scratch.Printer, Big, [(new(0, 0, 10, 10), scratch["a.tif"]), (new(0, 590, 10, 10), scratch["b.tif"])], cancel: TestContext.Current.CancellationToken);
        Assert.NotNull(made.Fault);
        Assert.Equal(["in.tif"], scratch.Files);
    }
}
