namespace Goodsheet.App.Profiles;

/// <summary>Capital letters and figures of five by seven dots, for what is written on a chart.</summary>
internal static class ChartLettering
{
    public const int Columns = 5;
    public const int Rows = 7;

    private const string Signs = " -.ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";

    // A number a row, its five bits from left to right; seven rows a sign, two figures (hexadecimal) a row.
    private const string Dots =
        "00000000000000" + "0000001F000000" + "00000000000C0C"
        + "0E11111F111111" + "1E11111E11111E" + "0E11101010110E" + "1E11111111111E" + "1F10101E10101F" + "1F10101E101010" + "0E11101711110F"
        + "1111111F111111" + "0E04040404040E" + "0702020202120C" + "11121418141211" + "1010101010101F" + "111B1515111111" + "11191513111111"
        + "0E11111111110E" + "1E11111E101010" + "0E11111115120D" + "1E11111E141211" + "0F10100E01011E" + "1F040404040404" + "1111111111110E"
        + "11111111110A04" + "1111111515150A" + "11110A040A1111" + "11110A04040404" + "1F01020408101F"
        + "0E11131519110E" + "040C040404040E" + "0E11010204081F" + "1F02040201110E" + "02060A121F0202" + "1F101E0101110E" + "0608101E11110E"
        + "1F010204080808" + "0E11110E11110E" + "0E11110F01020C";

    /// <summary>Whether a dot of a text is dark; what has no sign is blank.</summary>
    /// <param name="text">The text; small letters are written as capitals.</param>
    /// <param name="column">In dots from its left edge; a letter takes six.</param>
    /// <param name="row">In dots from its upper edge, 0 to 6.</param>
    public static bool IsDark(string text, int column, int row)
    {
        var (index, dot) = (column / (Columns + 1), column % (Columns + 1));
        if (index >= text.Length || dot == Columns || row is < 0 or >= Rows)
        {
            return false;
        }

        var sign = Math.Max(0, Signs.IndexOf(char.ToUpperInvariant(text[index]), StringComparison.Ordinal));
        var bits = Convert.ToInt32(Dots.Substring((sign * 2 * Rows) + (2 * row), 2), 16);
        return (bits >> (Columns - 1 - dot) & 1) == 1;
    }
}
