namespace Goodsheet.Colour.Colorimetry;

/// <summary>The function at the heart of L*a*b*, and its inverse (CIE 15:2018, 8.2.1.1 and Annex D).</summary>
/// <remarks>The constants are the standard's ratios: rounded ones leave a step at the joint.</remarks>
public static class CieLab
{
    private const double Joint = 24.0 / 116 * (24.0 / 116) * (24.0 / 116);
    private const double Slope = 841.0 / 108;

    /// <summary>f(t): the cube root, with a straight foot below (24/116)³.</summary>
    /// <param name="ratio">A tristimulus value over that of the white; below 0 goes on along the straight foot.</param>
    public static double F(double ratio) => ratio > Joint ? Math.Cbrt(ratio) : (Slope * ratio) + (16.0 / 116);

    /// <summary>The ratio whose <see cref="F"/> is given.</summary>
    public static double InverseF(double f) => f > 24.0 / 116 ? f * f * f : (f - (16.0 / 116)) / Slope;
}
