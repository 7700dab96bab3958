namespace Goodsheet.Colour.Icc;

/// <summary>A four-character signature, by which ICC files name tags, types, classes and spaces.</summary>
/// <param name="Value">The four bytes, first character highest. Unknown signatures are values like any other.</param>
public readonly record struct Signature(uint Value)
{
    /// <summary>The signature spelled by <paramref name="text"/>.</summary>
    /// <param name="text">Four ASCII characters; a short name ends in spaces, as in "Lab ".</param>
    /// <exception cref="ArgumentException">The text is not four ASCII characters.</exception>
    public static Signature Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length != 4 || text.Any(c => c is < ' ' or > '~'))
        {
            throw new ArgumentException($"A signature is four ASCII characters, not '{text}'.", nameof(text));
        }

        return new(((uint)text[0] << 24) | ((uint)text[1] << 16) | ((uint)text[2] << 8) | text[3]);
    }

    /// <summary>The four characters; bytes that are no printable ASCII show as dots.</summary>
    public override string ToString() => string.Create(4, Value, static (text, value) =>
    {
        for (var i = 0; i < 4; i++)
        {
            var c = (char)((value >> (24 - (8 * i))) & 0xFF);
            text[i] = c is < ' ' or > '~' ? '.' : c;
        }
    });
}
