namespace Goodsheet.Colour.Icc;

/// <summary>The tags this library reads or writes (ICC.1 clause 9.2, from memory).</summary>
public static class TagSignature
{
    /// <summary>Device to PCS, perceptual.</summary>
    public static readonly Signature A2B0 = Signature.Of("A2B0");

    /// <summary>Device to PCS, media-relative colorimetric.</summary>
    public static readonly Signature A2B1 = Signature.Of("A2B1");

    /// <summary>Device to PCS, saturation.</summary>
    public static readonly Signature A2B2 = Signature.Of("A2B2");

    /// <summary>PCS to device, perceptual.</summary>
    public static readonly Signature B2A0 = Signature.Of("B2A0");

    /// <summary>PCS to device, media-relative colorimetric.</summary>
    public static readonly Signature B2A1 = Signature.Of("B2A1");

    /// <summary>PCS to device, saturation.</summary>
    public static readonly Signature B2A2 = Signature.Of("B2A2");

    /// <summary>PCS to one channel: 0 where the colour can be printed.</summary>
    public static readonly Signature Gamut = Signature.Of("gamt");

    /// <summary>The name shown in lists.</summary>
    public static readonly Signature Description = Signature.Of("desc");

    /// <summary>Who holds the rights.</summary>
    public static readonly Signature Copyright = Signature.Of("cprt");

    /// <summary>The colour of the bare paper.</summary>
    public static readonly Signature MediaWhite = Signature.Of("wtpt");

    /// <summary>The darkest colour; version 2 only.</summary>
    public static readonly Signature MediaBlack = Signature.Of("bkpt");

    /// <summary>The matrix that took the measurements to D50.</summary>
    public static readonly Signature ChromaticAdaptation = Signature.Of("chad");

    /// <summary>The measurements the profile was made from.</summary>
    public static readonly Signature CharTarget = Signature.Of("targ");

    /// <summary>Says that the perceptual tables aim at the reference medium.</summary>
    public static readonly Signature PerceptualGamut = Signature.Of("rig0");

    /// <summary>The red primary.</summary>
    public static readonly Signature RedColumn = Signature.Of("rXYZ");

    /// <summary>The green primary.</summary>
    public static readonly Signature GreenColumn = Signature.Of("gXYZ");

    /// <summary>The blue primary.</summary>
    public static readonly Signature BlueColumn = Signature.Of("bXYZ");

    /// <summary>The tone curve of red.</summary>
    public static readonly Signature RedTrc = Signature.Of("rTRC");

    /// <summary>The tone curve of green.</summary>
    public static readonly Signature GreenTrc = Signature.Of("gTRC");

    /// <summary>The tone curve of blue.</summary>
    public static readonly Signature BlueTrc = Signature.Of("bTRC");

    /// <summary>The tone curve of grey.</summary>
    public static readonly Signature GreyTrc = Signature.Of("kTRC");
}
