namespace Goodsheet.Colour.Icc;

/// <summary>The colour spaces this library reads: of a device, or of the profile connection (PCS).</summary>
public enum ColourSpace
{
    /// <summary>CIE XYZ under D50, Y of the white 1. Rows of this library hold X, Y, Z themselves.</summary>
    Xyz,

    /// <summary>CIE 1976 L*a*b* under D50. Rows of this library hold L*, a*, b* themselves.</summary>
    Lab,

    /// <summary>One channel, 0 black to 1 white.</summary>
    Grey,

    /// <summary>Three channels, 0 full ink to 1 paper.</summary>
    Rgb,

    /// <summary>Four channels, 0 paper to 1 full ink.</summary>
    Cmyk,
}

/// <summary>What is known of each <see cref="ColourSpace"/>.</summary>
public static class ColourSpaces
{
    private static readonly (ColourSpace Space, Signature Signature, int Channels)[] Known =
    [
        (ColourSpace.Xyz, Icc.Signature.Of("XYZ "), 3),
        (ColourSpace.Lab, Icc.Signature.Of("Lab "), 3),
        (ColourSpace.Grey, Icc.Signature.Of("GRAY"), 1),
        (ColourSpace.Rgb, Icc.Signature.Of("RGB "), 3),
        (ColourSpace.Cmyk, Icc.Signature.Of("CMYK"), 4),
    ];

    /// <summary>How many numbers make a colour.</summary>
    public static int Channels(this ColourSpace space) => Known[(int)space].Channels;

    /// <summary>The signature in a profile header.</summary>
    public static Signature Signature(this ColourSpace space) => Known[(int)space].Signature;

    /// <summary>The space a signature names, or null when this library does not read it.</summary>
    public static ColourSpace? Named(Signature signature) =>
        Array.Find(Known, k => k.Signature == signature) is { Channels: > 0 } found ? found.Space : null;
}
