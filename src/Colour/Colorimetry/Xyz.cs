namespace Goodsheet.Colour.Colorimetry;

/// <summary>Tristimulus values (CIE 15:2018, 7.1).</summary>
/// <remarks>Scaled so that the perfect reflecting diffuser has Y = 100.</remarks>
/// <param name="X">X, 0 to about 100.</param>
/// <param name="Y">Y, luminance factor in percent, 0 to 100.</param>
/// <param name="Z">Z, 0 to about 110.</param>
public readonly record struct Xyz(double X, double Y, double Z)
{
    /// <summary>D50 and 2°, by the weights that this library sums spectra with: what measured Lab relates to.</summary>
    public static Xyz D50 { get; } = new(96.424, 99.9997, 82.5131);

    /// <summary>The D50 of the ICC profile connection space, as its header holds it (ICC.1:2022, 7.2.16), times 100.</summary>
    public static Xyz PcsD50 { get; } = new(96.42, 100, 82.49);

    /// <summary>D65 and 2° (CIE 15:2018, table of illuminant white points), for sRGB.</summary>
    public static Xyz D65 { get; } = new(95.047, 100, 108.883);

    /// <summary>Chromaticity x = X / (X + Y + Z); not a number for black.</summary>
    public double ChromaX => X / (X + Y + Z);

    /// <summary>Chromaticity y = Y / (X + Y + Z); not a number for black.</summary>
    public double ChromaY => Y / (X + Y + Z);

    /// <summary>The colour in L*a*b* relative to a white (CIE 15:2018, 8.2.1.1).</summary>
    /// <param name="white">The white, on the same scale; every value above 0.</param>
    public Lab ToLab(Xyz white)
    {
        var (fx, fy, fz) = (CieLab.F(X / white.X), CieLab.F(Y / white.Y), CieLab.F(Z / white.Z));
        return new((116 * fy) - 16, 500 * (fx - fy), 200 * (fy - fz));
    }
}
