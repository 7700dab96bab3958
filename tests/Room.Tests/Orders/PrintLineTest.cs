using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Tests.Orders;

public class PrintLineTest
{
    private const double Tiny = 1e-9; // rounding of double precision

    [Theory]
    [InlineData(3_000, 2_000, 300, 200, 0, 0)]
    [InlineData(3_000, 2_000, 200, 200, 1 / 6.0, 0)] // a third of the width, half of it on each side
    [InlineData(3_000, 2_000, 300, 100, 0, 0.25)]
    [InlineData(2_000, 3_000, 200, 200, 0, 1 / 6.0)]
    public void What_does_not_fit_the_shape_is_cut_evenly(int wide, int high, int width, int height, double atSides, double aboveAndBelow)
    {
        var line = new PrintLine
        {
            Order = 1,
            Line = 1,
            Title = "Low Water",
            ImageHash = "",
            ImageName = "low-water.tif",
            PixelsWide = wide,
            PixelsHigh = high,
            Width = Length.FromMillimetres(width),
            Height = Length.FromMillimetres(height),
            Paper = new("matte"),
            Copies = 1,
        };
        Assert.Equal(atSides, line.CutAtSides, Tiny);
        Assert.Equal(aboveAndBelow, line.CutAboveAndBelow, Tiny);
    }
}
