namespace Goodsheet.Colour.Icc;

/// <summary>CIE XYZ as ICC files carry it: relative to the white, Y of a perfect diffuser 1.</summary>
/// <param name="X">X, usually 0 to 0.9642.</param>
/// <param name="Y">Y, usually 0 to 1.</param>
/// <param name="Z">Z, usually 0 to 0.8249.</param>
public readonly record struct XyzNumber(double X, double Y, double Z)
{
    /// <summary>The white of the profile connection space, D50 as ICC.1 prints it: 0.9642, 1, 0.8249.</summary>
    public static readonly XyzNumber D50 = new(0.9642, 1, 0.8249);
}
