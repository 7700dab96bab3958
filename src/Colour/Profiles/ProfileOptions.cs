using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>How a profile is made. The defaults are good: only its name and date must be given.</summary>
public sealed record ProfileOptions
{
    /// <summary>What systems show it as.</summary>
    public required string Name { get; init; }

    /// <summary>Written into the file.</summary>
    public required DateTimeOffset Created { get; init; }

    /// <summary>Version 4 unless something old must read it.</summary>
    public IccVersion Version { get; init; } = IccVersion.V4;

    /// <summary>Nodes along each side of its tables, 9 to 45; none for what suits the device.</summary>
    public int? Grid { get; init; }

    /// <summary>The most ink of all channels together, 1 a channel: 2 to 4. CMYK only.</summary>
    public double InkLimit { get; init; } = 3.2;

    /// <summary>The lightness, relative to the paper, below which black ink comes in: 20 to 100. CMYK only.</summary>
    /// <remarks>Late black keeps light greys free of its grain, early black keeps greys neutral when the other inks drift
    /// and takes less ink (common practice, no source).</remarks>
    public double BlackFrom { get; init; } = 80;

    /// <summary>The most black ink, .2 to 1. CMYK only.</summary>
    public double MostBlack { get; init; } = 1;

    /// <summary>The measurements it is made from, as CGATS text, kept inside it; none to leave them out.</summary>
    public string? Measurements { get; init; }

    /// <summary>Whether the paper is matte: said in the profile's header.</summary>
    public bool Matte { get; init; }

    /// <summary>The copyright line.</summary>
    public string Rights { get; init; } = "Made by this print room for its own use.";

    internal const int LeastGrid = 9;

    internal const int MostGrid = 45;
}
