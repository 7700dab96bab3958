using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Profiles;

/// <summary>Between colours as measured and colours relative to the paper, as profiles hold them (ICC.1 clause 6.3.2, from memory).</summary>
/// <remarks>Every colour is scaled in XYZ so that the paper becomes the D50 of the connection space. Lab in, Lab out.</remarks>
public sealed class MediaRelative
{
    private readonly double x;
    private readonly double y;
    private readonly double z;

    /// <param name="paper">The bare paper, L*a*b* as measured (D50, 2 degrees), L* above 0.</param>
    public MediaRelative(Lab paper)
    {
        White = paper.ToXyz(Xyz.PcsD50);
        (x, y, z) = (Xyz.PcsD50.X / White.X, Xyz.PcsD50.Y / White.Y, Xyz.PcsD50.Z / White.Z);
    }

    /// <summary>The media white point, Y about 60 to 95 of 100.</summary>
    public Xyz White { get; }

    /// <summary>As the connection space holds it: the paper is 100, 0, 0.</summary>
    public Lab ToRelative(Lab measured)
    {
        var colour = measured.ToXyz(Xyz.PcsD50);
        return new Xyz(colour.X * x, colour.Y * y, colour.Z * z).ToLab(Xyz.PcsD50);
    }

    /// <summary>As an instrument reads it.</summary>
    public Lab ToMeasured(Lab relative)
    {
        var colour = relative.ToXyz(Xyz.PcsD50);
        return new Xyz(colour.X / x, colour.Y / y, colour.Z / z).ToLab(Xyz.PcsD50);
    }
}
