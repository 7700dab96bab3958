using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Whiteness;

/// <summary>CIE whiteness and tint (CIE 15:2018, formulas of 1982), for D65.</summary>
/// <param name="Whiteness">W: 100 for the perfect diffuser, more for a blueish, brightened white.</param>
/// <param name="Tint">T: above 0 greenish, below 0 reddish.</param>
/// <param name="IsWhite">Whether the colour is inside the range that the formulas are meant for: 40 &lt; W &lt; 5Y − 280
/// and −4 &lt; T &lt; 2.</param>
public readonly record struct CieWhiteness(double Whiteness, double Tint, bool IsWhite)
{
    /// <summary>Whiteness and tint of a colour.</summary>
    /// <param name="colour">Under D65, Y of the perfect diffuser being 100.</param>
    /// <param name="observer">The observer that it is given for.</param>
    public static CieWhiteness Of(Xyz colour, Observer observer)
    {
        var (xn, yn, tintX) = observer == Observer.TenDegrees ? (0.31382, 0.33100, 900) : (0.31270, 0.32900, 1000);
        var (dx, dy) = (xn - colour.ChromaX, yn - colour.ChromaY);
        var w = colour.Y + (800 * dx) + (1700 * dy);
        var t = (tintX * dx) - (650 * dy);
        return new(w, t, w > 40 && w < (5 * colour.Y) - 280 && t is > -4 and < 2);
    }

    /// <summary>Whiteness and tint of a paper under D65 by the 10° observer, as papers are sold by.</summary>
    /// <remarks>A measurement under D50 or tungsten lights a brightener less than D65 would: the true figure is higher.</remarks>
    public static CieWhiteness Of(Spectrum paper) =>
        Of(TristimulusWeights.For(Light.D65, Observer.TenDegrees).ToXyz(paper), Observer.TenDegrees);
}
