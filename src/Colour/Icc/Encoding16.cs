namespace Goodsheet.Colour.Icc;

/// <summary>Numbers as 16-bit codes: 0 to 1 as 0 to 65535.</summary>
public static class Encoding16
{
    /// <summary>The nearest code, clipped to what 16 bits hold; halves go up, NaN to 0.</summary>
    public static ushort Round(double value) =>
        double.IsNaN(value) ? (ushort)0 : (ushort)Math.Floor((Math.Clamp(value, 0, 1) * ushort.MaxValue) + 0.5);
}
