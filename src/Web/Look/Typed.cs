using System.Globalization;
using Goodsheet.Room.Units;

namespace Goodsheet.Web.Look;

/// <summary>Reads what a person typed, in the room's culture; nothing is guessed.</summary>
public static class Typed
{
    private const decimal MostMetres = 10_000;

    /// <summary>Whole sheets, or metres of roll as mm; null when it cannot be read.</summary>
    /// <remarks>A separator of thousands is not taken: "12,5" would become 125.</remarks>
    public static long? Quantity(string text, bool isRoll)
    {
        if (!isRoll)
        {
            return long.TryParse(text, NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite | NumberStyles.AllowLeadingSign, CultureInfo.CurrentCulture, out var sheets)
                ? sheets : null;
        }

        return Number(text) is { } metres and > 0 and < MostMetres ? (long)Math.Round(metres * 1000) : null;
    }

    /// <summary>Millimetres, to the micrometre; null when it cannot be read or is not above 0.</summary>
    public static Length? Millimetres(string text) => Number(text) is { } mm and > 0 and < 100_000
        ? Length.FromMicrometres((long)Math.Round(mm * 1000)) : null;

    /// <summary>A plain figure; null when it cannot be read.</summary>
    public static double? Figure(string text) => (double?)Number(text);

    private static decimal? Number(string text) => decimal.TryParse(
        text, NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite | NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
        CultureInfo.CurrentCulture, out var number) ? number : null;
}
