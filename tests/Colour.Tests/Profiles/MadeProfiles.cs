using System.Collections.Concurrent;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>Profiles of the invented gloss paper, each made once for all the tests that ask the same of it: making is the longest of their work.</summary>
internal static class MadeProfiles
{
    /// <summary>When they were made.</summary>
    public static readonly DateTimeOffset Day = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

    private static readonly ConcurrentDictionary<(int Channels, IccVersion Version, int? Grid), Lazy<byte[]>> Made = new();

    /// <summary>The file, not to be changed.</summary>
    /// <param name="channels">1 grey, 3 RGB, 4 CMYK.</param>
    /// <param name="version">Of the file's form.</param>
    /// <param name="grid">Nodes of the tables along each channel; as many as are usual when nothing is said.</param>
    public static byte[] Gloss(int channels = 3, IccVersion version = IccVersion.V4, int? grid = null) =>
        Made.GetOrAdd((channels, version, grid), of => new(() => ProfileMaker.Make(
            InventedConditions.Gloss(of.Channels), new() { Name = "Invented", Created = Day, Version = of.Version, Grid = of.Grid }).File)).Value;
}
