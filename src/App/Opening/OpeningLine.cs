using System.Globalization;
using Goodsheet.App.Shelf;

namespace Goodsheet.App.Opening;

/// <summary>What stands before the decimals in a list. It is asked, never guessed: "12,500" is both.</summary>
public enum DecimalMark
{
    Point,
    Comma,
}

/// <summary>What comes of a line.</summary>
public enum LineState
{
    /// <summary>It can be taken in, or was.</summary>
    Fine,

    /// <summary>The room has it already; it is left as it is.</summary>
    Known,

    Wrong,
}

/// <summary>What was said of one line of one list.</summary>
public sealed record OpeningLine(int Line, LineState State, string Says);

/// <summary>A line cannot be taken in. Thrown and caught inside this folder only: a line has many fields and one fault to say.</summary>
internal sealed class LineIsWrongException(string says) : Exception(says);

/// <summary>Reads the fields of a line, by the stated decimal mark.</summary>
internal sealed class OpeningFields(OpeningFile.Row row, DecimalMark mark)
{
    private const decimal MostMoney = 1_000_000;

    public string Text(string column, int longest, bool needed = true)
    {
        var text = row[column].Trim();
        return needed && text.Length == 0 ? throw new LineIsWrongException($"says no {column}")
            : text.Length > longest ? throw new LineIsWrongException($"{column} has more than {longest} letters") : text;
    }

    /// <summary>Sheets are whole; of a roll metres come as mm.</summary>
    public long Quantity(string column, bool isRoll)
    {
        if (isRoll)
        {
            var mm = Math.Round(Number(column) * 1000);
            return mm is >= 1 and <= PutAway.Request.Most ? (long)mm
                : throw new LineIsWrongException($"“{row[column]}” metres cannot be: more than 0, at most {PutAway.Request.Most / 1000}");
        }

        return Whole(column, 1, PutAway.Request.Most);
    }

    public long Whole(string column, long least, long most, long? empty = null)
    {
        var text = row[column].Trim();
        if (text.Length == 0 && empty is { } given)
        {
            return given;
        }

        return !long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var whole)
            ? throw new LineIsWrongException($"“{text}” is no whole number: {column} is counted in whole ones")
            : whole >= least && whole <= most ? whole
            : throw new LineIsWrongException($"{column} {text} cannot be: from {least} to {most}");
    }

    public decimal Money(string column, decimal? empty = null) =>
        row[column].Trim().Length == 0 && empty is { } given ? given
        : Number(column) is >= 0 and <= MostMoney and var sum ? sum
        : throw new LineIsWrongException($"“{row[column]}” is no sum of money from 0 to {MostMoney:0}");

    public decimal Number(string column)
    {
        var text = row[column].Trim();
        var (wanted, other) = mark is DecimalMark.Comma ? (',', '.') : ('.', ',');
        if (text.Contains(other))
        {
            throw new LineIsWrongException($"“{text}” has a {(other is ',' ? "comma" : "point")}; you said that decimals stand after a {(wanted is ',' ? "comma" : "point")}");
        }

        return decimal.TryParse(text.Replace(wanted, '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            ? number : throw new LineIsWrongException($"“{text}” is no number");
    }

    public DateOnly? Day(string column) => row[column].Trim() is not { Length: > 0 } text ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day
        : throw new LineIsWrongException($"“{text}” is no day; write it as 2026-03-02");

    /// <summary>One of a few words, spaces and hyphens aside: "smooth fine art".</summary>
    public T Word<T>(string column, T? empty = null)
        where T : struct, Enum
    {
        var text = row[column].Trim();
        var plain = text.Replace(" ", "").Replace("-", "");
        return plain.Length == 0 && empty is { } given ? given
            : plain.All(char.IsAsciiLetter) && Enum.TryParse<T>(plain, ignoreCase: true, out var word) ? word
            : throw new LineIsWrongException($"“{text}” is no {column}; one of {string.Join(", ", Enum.GetNames<T>().Select(Spaced))}");
    }

    private static string Spaced(string name) => string.Concat(name.Select((c, at) => char.IsUpper(c) ? (at > 0 ? " " : "") + char.ToLowerInvariant(c) : c.ToString()));
}
