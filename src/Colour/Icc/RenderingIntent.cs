namespace Goodsheet.Colour.Icc;

/// <summary>What to give up when a colour cannot be had; numbered as in the profile header.</summary>
public enum RenderingIntent
{
    /// <summary>A pleasing picture: the whole range of colours is fitted into the one there is.</summary>
    Perceptual = 0,

    /// <summary>Colours as measured, relative to the paper white; what cannot be had goes to the nearest.</summary>
    RelativeColorimetric = 1,

    /// <summary>Vivid colours, for charts.</summary>
    Saturation = 2,

    /// <summary>Colours as measured, the paper white included.</summary>
    AbsoluteColorimetric = 3,
}
