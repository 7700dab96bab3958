namespace Goodsheet.Colour.Icc;

/// <summary>The header of a profile, 128 bytes (ICC.1 clause 7.2, from memory).</summary>
public sealed record IccHeader
{
    /// <summary>How long a header is, in bytes.</summary>
    public const int Length = 128;

    /// <summary>The size of the whole profile in bytes, as the header says it.</summary>
    public required int Size { get; init; }

    /// <summary>Major version, 2 or 4.</summary>
    public required int Major { get; init; }

    /// <summary>Minor version, 0 to 15.</summary>
    public required int Minor { get; init; }

    /// <summary>What the profile is of.</summary>
    public required ProfileClass Class { get; init; }

    /// <summary>The colour space of the device.</summary>
    public required ColourSpace Space { get; init; }

    /// <summary>The connection space, <see cref="ColourSpace.Xyz"/> or <see cref="ColourSpace.Lab"/>.</summary>
    public required ColourSpace Pcs { get; init; }

    /// <summary>When it was made, UTC; null when the six numbers make no date.</summary>
    public required DateTime? Created { get; init; }

    /// <summary>The intent its maker meant it for.</summary>
    public required RenderingIntent Intent { get; init; }

    /// <summary>The white of the connection space.</summary>
    public required XyzNumber Illuminant { get; init; }

    /// <summary>The MD5 of the profile, 32 hexadecimal digits, or null when it was not calculated.</summary>
    public required string? ProfileId { get; init; }
}
