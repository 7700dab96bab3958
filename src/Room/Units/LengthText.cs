using System.Globalization;

namespace Goodsheet.Room.Units;

/// <summary>Lengths as a person types them: <c>610mm</c>, <c>61 cm</c>, <c>1.117 m</c>, <c>24in</c>, <c>420x594mm</c>.</summary>
/// <remarks>
/// The decimal mark is a point whatever the room's culture, so that a line of a script means the same everywhere; a
/// comma is refused, since in half the world it parts thousands. A number alone is mm.
/// </remarks>
public static class LengthText
{
    /// <summary>More paper than there is on any roll, so a slip of the hand.</summary>
    public static readonly Length Most = Length.FromMetres(1_000);

    private const int LongestText = 40;

    private const int MostDecimals = 6; // a micrometre in metres; the other units have fewer

    private static readonly (string Ending, decimal Micrometres)[] Units =
        [("mm", 1_000), ("cm", 10_000), ("in", 25_400), ("m", 1_000_000), ("", 1_000)];

    /// <summary>One length, zero or more.</summary>
    public static Outcome<Stated> Read(string text)
    {
        var bare = text.Trim();
        var (ending, micrometres) = Units.First(u => bare.EndsWith(u.Ending, StringComparison.OrdinalIgnoreCase));
        return Number(text, bare[..^ending.Length], micrometres);
    }

    /// <summary>Width by height: both in the unit that stands at the end.</summary>
    public static Outcome<StatedSize> ReadSize(string text)
    {
        var bare = text.Trim();
        var (ending, micrometres) = Units.First(u => bare.EndsWith(u.Ending, StringComparison.OrdinalIgnoreCase));
        if (bare[..^ending.Length].Split('x', 'X', '×') is not [var first, var second])
        {
            return NotRead(text);
        }

        var (width, height) = (Number(text, first, micrometres), Number(text, second, micrometres));
        return (width.Refusal ?? height.Refusal) is { } no ? no : new StatedSize(width.Value!.Length, height.Value!.Length);
    }

    private static Outcome<Stated> Number(string whole, string digits, decimal micrometres)
    {
        var bare = digits.Trim();
        if (whole.Length > LongestText || !bare.All(c => char.IsAsciiDigit(c) || c == '.') // the framework would take a nought byte at its end
            || !decimal.TryParse(bare, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
        {
            return NotRead(whole);
        }

        if (number > Most.Micrometres / micrometres)
        {
            return new TooLong(whole);
        }

        if (bare.IndexOf('.', StringComparison.Ordinal) is var point and >= 0 && bare[(point + 1)..].TrimEnd('0').Length > MostDecimals)
        {
            return new TooFine(whole); // before more digits than a number holds are rounded away
        }

        var exact = number * micrometres;
        return decimal.IsInteger(exact) ? new Stated(Length.FromMicrometres((long)exact)) : new TooFine(whole);
    }

    private static NotALength NotRead(string text) => new(text.Length > LongestText ? text[..LongestText] : text);

    /// <summary>A length that was read; a class, as an outcome holds one.</summary>
    public sealed record Stated(Length Length);

    public sealed record StatedSize(Length Width, Length Height);

    public sealed record NotALength(string Text)
        : Refusal($"\"{Text}\" is not a length. Write it as 610mm, or a size as 420x594mm, with a point for decimals and no sign.");

    public sealed record TooLong(string Text) : Refusal($"\"{Text}\" is longer than any paper: at most {Most.Millimetres / 1000:0} m.");

    public sealed record TooFine(string Text) : Refusal($"\"{Text}\" is finer than a thousandth of a millimetre.");
}
