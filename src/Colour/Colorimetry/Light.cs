namespace Goodsheet.Colour.Colorimetry;

/// <summary>The lights that this library has tristimulus weights for (CIE 15:2018).</summary>
public enum Light
{
    /// <summary>Graphic arts viewing, ISO 3664; what print measurements are stated in.</summary>
    D50,

    /// <summary>Average daylight; what whiteness is stated in.</summary>
    D65,

    /// <summary>Tungsten lamp, 2856 K.</summary>
    A,

    /// <summary>Cool white fluorescent lamp.</summary>
    Fl2,

    /// <summary>Narrow three-band fluorescent lamp, as shops have them.</summary>
    Fl11,
}

/// <summary>The CIE standard observers.</summary>
public enum Observer
{
    /// <summary>CIE 1931, fields of 1° to 4°.</summary>
    TwoDegrees,

    /// <summary>CIE 1964, larger fields.</summary>
    TenDegrees,
}
