namespace Goodsheet.Colour.Icc;

/// <summary>Which version of the format to write.</summary>
public enum IccVersion
{
    /// <summary>Version 2.4: lut16Type, for software that reads no newer one.</summary>
    V2,

    /// <summary>Version 4.4: lutAToBType and lutBToAType, ICC.1:2022.</summary>
    V4,
}

/// <summary>A text in one language.</summary>
/// <param name="Language">Two letters of ISO 639-1, such as "en".</param>
/// <param name="Country">Two letters of ISO 3166-1, such as "GB".</param>
/// <param name="Text">The text.</param>
public sealed record LocalText(string Language, string Country, string Text);

/// <summary>All that goes into a printer profile; <see cref="IccProfileWriter"/> makes the bytes of it.</summary>
/// <remarks>Tables work on numbers of 0 to 1, Lab as version 4 encodes it. Colours are relative to the media white,
/// whose own colour is <see cref="MediaWhite"/>. One table may serve several intents: its data are written once.</remarks>
public sealed record PrinterProfile
{
    /// <summary>The device: <see cref="ColourSpace.Grey"/>, <see cref="ColourSpace.Rgb"/> or <see cref="ColourSpace.Cmyk"/>.</summary>
    public required ColourSpace Space { get; init; }

    /// <summary>When it was made. Written in UTC, to the second.</summary>
    public required DateTimeOffset Created { get; init; }

    /// <summary>Its name, in one language or several; the first is the one that version 2 holds.</summary>
    public required IReadOnlyList<LocalText> Description { get; init; }

    /// <summary>Who holds the rights, in one language or several; the first is the one that version 2 holds.</summary>
    public required IReadOnlyList<LocalText> Copyright { get; init; }

    /// <summary>The bare paper under D50, relative to a perfect diffuser: about 0.85, 0.88, 0.74.</summary>
    public required XyzNumber MediaWhite { get; init; }

    /// <summary>Perceptual, device to Lab.</summary>
    public required LutTable A2B0 { get; init; }

    /// <summary>Relative colorimetric, device to Lab.</summary>
    public required LutTable A2B1 { get; init; }

    /// <summary>Saturation, device to Lab.</summary>
    public required LutTable A2B2 { get; init; }

    /// <summary>Perceptual, Lab to device.</summary>
    public required LutTable B2A0 { get; init; }

    /// <summary>Relative colorimetric, Lab to device.</summary>
    public required LutTable B2A1 { get; init; }

    /// <summary>Saturation, Lab to device.</summary>
    public required LutTable B2A2 { get; init; }

    /// <summary>Lab to one number: 0 where the colour can be printed, above 0 where not.</summary>
    public required LutTable Gamut { get; init; }

    /// <summary>The darkest colour under D50, relative to a perfect diffuser; only version 2 has a place for it.</summary>
    public XyzNumber? MediaBlack { get; init; }

    /// <summary>The matrix from the illuminant of measurement to D50; null when it was measured under D50.</summary>
    public Matrix3? ChromaticAdaptation { get; init; }

    /// <summary>Whether the perceptual tables aim at the reference medium of ICC.1; only version 4 has a place for it.</summary>
    public bool PerceptualReferenceMedium { get; init; }

    /// <summary>The measurements, as the ASCII text of an exchange file; null to leave them out.</summary>
    public string? CharTarget { get; init; }

    /// <summary>Whether the paper is matte.</summary>
    public bool Matte { get; init; }

    /// <summary>The intent to use when nobody says another.</summary>
    public RenderingIntent Intent { get; init; }
}

/// <summary>A profile of an RGB space by curves and primaries.</summary>
public sealed record RgbSpaceProfile
{
    /// <summary>When it was made. Written in UTC, to the second.</summary>
    public required DateTimeOffset Created { get; init; }

    /// <summary>Its name.</summary>
    public required IReadOnlyList<LocalText> Description { get; init; }

    /// <summary>Who holds the rights.</summary>
    public required IReadOnlyList<LocalText> Copyright { get; init; }

    /// <summary>The tone curve of each channel, device value to linear light.</summary>
    public required ToneCurve Curve { get; init; }

    /// <summary>From linear RGB to XYZ, adapted to D50; its columns are the primaries.</summary>
    public required Matrix3 Primaries { get; init; }

    /// <summary>The matrix by which the white of the space was adapted to D50; null when it is D50.</summary>
    public Matrix3? ChromaticAdaptation { get; init; }
}

/// <summary>A profile of a grey space by one curve.</summary>
public sealed record GreySpaceProfile
{
    /// <summary>When it was made. Written in UTC, to the second.</summary>
    public required DateTimeOffset Created { get; init; }

    /// <summary>Its name.</summary>
    public required IReadOnlyList<LocalText> Description { get; init; }

    /// <summary>Who holds the rights.</summary>
    public required IReadOnlyList<LocalText> Copyright { get; init; }

    /// <summary>The tone curve, device value to luminance.</summary>
    public required ToneCurve Curve { get; init; }
}
