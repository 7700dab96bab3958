using System.Globalization;
using System.Numerics;
using System.Text.RegularExpressions;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Tests.Units;

/// <summary>Lengths damaged at random: what is granted is exactly what is written, by a pattern and whole numbers of our own; all else is refused shortly.</summary>
public sealed partial class MutatedLengthTest
{
    private const int MostMessage = 200; // characters: it stands beside a field

    private static readonly int Rounds = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 1_000_000 : 100_000;

    private static readonly string[] Seeds = ["610mm", " 61 cm ", "1.117 m", "24in", "0.001", "1000m", "420x594mm", "16 × 20 in", "210X297", "0.5"];

    private static readonly string[] Words =
        ["mm", "cm", "in", "m", "x", "×", " ", ".", ",", "-", "+", "0", "9", "1e3", "NaN", "Infinity", "0000000000", "00000000000000000000000001", "99999999999999999999999999999", "\0", "\u00A0", "٣", "\uFEFF", "\n", "½", "0x1F", "µm", "İN"];

    [Fact]
    public void Is_read_exactly_or_refused_in_words()
    {
        var random = new Random(81); // seeded: a failure names its round, which replays
        var (lengths, sizes, refused) = (0, 0, 0);
        for (var round = 0; round < Rounds; round++)
        {
            var text = Seeds[random.Next(Seeds.Length)];
            for (var change = random.Next(1, 6); change > 0; change--)
            {
                text = Changed(text, random);
            }

            var (length, size) = (LengthText.Read(text), LengthText.ReadSize(text));
            var named = $"round {round}: \"{text}\"";
            Assert.True(length.Granted == (Written(text) is not null), named);
            Assert.True(size.Granted == (WrittenSize(text) is not null), named);
            Assert.True(length.Value is not { } l || l.Length.Micrometres == Written(text), named);
            Assert.True(size.Value is not { } s || (s.Width.Micrometres, s.Height.Micrometres) == WrittenSize(text), named);
            Assert.All(new[] { length.Refusal, size.Refusal }, r => Assert.True(r is null || r.Message.Length is > 0 and < MostMessage, named));
            (lengths, sizes, refused) = (lengths + (length.Granted ? 1 : 0), sizes + (size.Granted ? 1 : 0), refused + (length.Granted || size.Granted ? 0 : 1));
        }

        Assert.True(lengths > 0 && sizes > 0 && refused > 0, $"{lengths} lengths, {sizes} sizes, {refused} refused: the changes test nothing");
    }

    private static long? Written(string text) => Whole().Match(text) is { Success: true } m && text.Length <= 40 ? Micrometres(m.Groups["a"].Value, m.Groups["unit"].Value) : null;

    private static (long, long)? WrittenSize(string text) =>
        WholeSize().Match(text) is { Success: true } m && text.Length <= 40
        && Micrometres(m.Groups["a"].Value, m.Groups["unit"].Value) is { } width && Micrometres(m.Groups["b"].Value, m.Groups["unit"].Value) is { } height
            ? (width, height) : null;

    // In whole numbers: digits without their point, by the unit, over the power of ten that the point stood for.
    private static long? Micrometres(string number, string unit)
    {
        var point = number.IndexOf('.', StringComparison.Ordinal);
        var digits = BigInteger.Parse(number.Replace(".", "", StringComparison.Ordinal), NumberStyles.None, CultureInfo.InvariantCulture);
        var over = BigInteger.Pow(10, point < 0 ? 0 : number.Length - point - 1);
        var all = digits * (unit.ToLowerInvariant() switch { "cm" => 10_000, "in" => 25_400, "m" => 1_000_000, _ => 1_000 });
        return all % over == 0 && all / over <= LengthText.Most.Micrometres ? (long)(all / over) : null;
    }

    private static string Changed(string text, Random random)
    {
        var at = random.Next(text.Length + 1);
        var length = Math.Min(random.Next(1, 6), text.Length - at);
        return random.Next(5) switch
        {
            0 => text.Remove(at, length),
            1 => text.Insert(at, Words[random.Next(Words.Length)]),
            2 => text.Insert(at, text.Substring(at, length)),
            3 => text.Insert(at, $"{random.Next(10)}"),
            _ => text.Insert(at, $"{(char)random.Next(1, 0x300)}"),
        };
    }

    [GeneratedRegex(@"\A\s*(?<a>[0-9]+\.?[0-9]*|\.[0-9]+)\s*(?<unit>mm|cm|in|m|)\s*\z", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Whole();

    [GeneratedRegex(@"\A\s*(?<a>[0-9]+\.?[0-9]*|\.[0-9]+)\s*[xX×]\s*(?<b>[0-9]+\.?[0-9]*|\.[0-9]+)\s*(?<unit>mm|cm|in|m|)\s*\z", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex WholeSize();
}
