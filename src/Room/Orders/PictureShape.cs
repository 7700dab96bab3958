using Goodsheet.Room.Units;

namespace Goodsheet.Room.Orders;

/// <summary>The shape of a picture, and what of it a print of another shape cuts off: evenly on two opposite sides, nothing on the others.</summary>
/// <param name="PixelsWide">As it is to be looked at, above 0.</param>
/// <param name="PixelsHigh">Above 0.</param>
public readonly record struct PictureShape(int PixelsWide, int PixelsHigh)
{
    /// <summary>The least share on one side that is said: what the knife takes anyway (common practice, no source).</summary>
    public const double Seen = 0.0025;

    /// <summary>Width by height.</summary>
    public double Ratio => (double)PixelsWide / PixelsHigh;

    /// <summary>The share of the picture's width cut off on each side, 0 to under 0.5.</summary>
    public double CutAtSides(Length width, Length height) => Math.Max(0, 1 - (width.Millimetres / height.Millimetres / Ratio)) / 2;

    /// <summary>The share of the picture's height cut off above and below each, 0 to under 0.5.</summary>
    public double CutAboveAndBelow(Length width, Length height) => Math.Max(0, 1 - (Ratio / (width.Millimetres / height.Millimetres))) / 2;

    /// <summary>How high a print of the whole picture is, to a tenth of a mm.</summary>
    public Length HeightOf(Length width) => Tenths(width.Millimetres / Ratio);

    /// <summary>How wide a print of the whole picture is, to a tenth of a mm.</summary>
    public Length WidthOf(Length height) => Tenths(height.Millimetres * Ratio);

    private static Length Tenths(double mm) => Length.NearestToMillimetres(Math.Max(0.1, Math.Round(mm, 1)));
}
