using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>Reads a supplier's price lines of one item, of which some began on a day and some from a number of packs.</summary>
internal static class PriceList
{
    /// <summary>The pack the newest lines name; none without a line.</summary>
    public static long? PackOf(IReadOnlyList<PriceLine> lines) => lines.MaxBy(l => (l.From, -l.FromPacks))?.PackSize;

    /// <summary>Of one pack when so many are bought: of the newest lines the one with the most packs that is reached.</summary>
    public static decimal? PriceOf(IReadOnlyList<PriceLine> lines, int packs)
    {
        var newest = lines.Count == 0 ? default : lines.Max(l => l.From);
        return lines.Where(l => l.From == newest && l.FromPacks <= packs).MaxBy(l => l.FromPacks)?.Price;
    }

    /// <summary>The next number of packs at which each costs less.</summary>
    public static int? NextBreak(IReadOnlyList<PriceLine> lines, int packs)
    {
        var newest = lines.Count == 0 ? default : lines.Max(l => l.From);
        return lines.Where(l => l.From == newest && l.FromPacks > packs).Min(l => (int?)l.FromPacks);
    }
}
