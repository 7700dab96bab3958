using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Buying;

/// <summary>Which item the prints of an order will want before a layout is made, and how much of it.</summary>
public static class KnownWork
{
    /// <summary>The smallest format kept that the print fits on; none if it fits on none.</summary>
    public static Format? FormatFor(Length width, Length height, IEnumerable<Format> kept) => kept
        .Where(f => Across(f.Width, width) * Across(f.Height, height) > 0 || Across(f.Width, height) * Across(f.Height, width) > 0)
        .OrderBy(f => f.IsRoll).ThenBy(f => f.Width.Micrometres * (f.IsRoll ? 1 : f.Height.Micrometres / 1000)).FirstOrDefault();

    /// <summary>Sheets, or mm of roll, laid in plain rows; a real layout may take less.</summary>
    public static long Wants(Length width, Length height, int copies, Format format)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(copies, 1);
        if (format.IsRoll)
        {
            return Math.Min(RollOf(width, height, copies, format), RollOf(height, width, copies, format));
        }

        var each = Math.Max(
            Across(format.Width, width) * Across(format.Height, height), Across(format.Width, height) * Across(format.Height, width));
        return each == 0 ? copies : (copies + each - 1) / each;
    }

    private static long RollOf(Length across, Length along, int copies, Format roll)
    {
        var row = Across(roll.Width, across);
        return row == 0 ? long.MaxValue : ((copies + row - 1) / row * along.Micrometres + 999) / 1000;
    }

    private static long Across(Length paper, Length piece) => piece <= Length.Zero ? 0 : paper.Micrometres / piece.Micrometres;
}
