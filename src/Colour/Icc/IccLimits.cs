namespace Goodsheet.Colour.Icc;

/// <summary>What a profile may not exceed to be read here; larger ones are refused, not cut.</summary>
/// <remarks>Set well above any printer profile seen (about 5 MB, 20 tags); choices of this library.</remarks>
public static class IccLimits
{
    /// <summary>The longest file, in bytes: 64 MiB.</summary>
    public const int FileBytes = 64 * 1024 * 1024;

    /// <summary>The most tags.</summary>
    public const int Tags = 100;

    /// <summary>The most entries of a tone curve.</summary>
    public const int CurveEntries = 65_536;

    /// <summary>The most nodes of a colour table, over all of its grid.</summary>
    public const int Nodes = 8 * 1024 * 1024;

    /// <summary>The most languages of a text.</summary>
    public const int Languages = 256;
}
