using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Reads a list of orders, one print on each line. A line that cannot be read is refused by itself; the rest goes on.</summary>
internal static class OrderListCsv
{
    public const string Heading = "client,reference,picture,title,paper,width_mm,height_mm,border_mm,edge,around_mm,copies,promised";
    public const int MostBytes = 20_000_000;
    public const int MostLines = 50_000;

    private const int Fields = 12;
    private const int LongestField = 300;

    /// <param name="text">The file.</param>
    /// <param name="zone">Of the room: promised times are in it.</param>
    public static Outcome<IReadOnlyList<OrderListLine>> Read(string text, TimeZoneInfo zone)
    {
        if (text.Length > MostBytes)
        {
            return new CannotBeRead($"The list is larger than {MostBytes / 1_000_000} MB.");
        }

        var lines = text.TrimStart('\uFEFF').Split('\n', MostLines + 3);
        var heading = lines[0].Trim().Replace(" ", "", StringComparison.Ordinal);
        var separator = heading.Contains(';', StringComparison.Ordinal) ? ';' : ',';
        if (!heading.Replace(';', ',').Equals(Heading, StringComparison.OrdinalIgnoreCase))
        {
            return new CannotBeRead($"The first line has to be {Heading}.");
        }

        if (lines.Length > MostLines + 2)
        {
            return new CannotBeRead($"The list has more than {MostLines} lines: split it.");
        }

        var read = new List<OrderListLine>();
        for (var i = 1; i < lines.Length; i++)
        {
            if (lines[i].Trim().Length > 0)
            {
                read.Add(ReadLine(i + 1, lines[i].TrimEnd('\r'), separator, zone));
            }
        }

        return read.Count == 0 ? new CannotBeRead("No order follows the heading.") : read;
    }

    // Each line by itself: a quote that is not closed spoils its own line only.
    private static OrderListLine ReadLine(int number, string line, char separator, TimeZoneInfo zone)
    {
        OrderListLine No(string why) => new(number, null, why);
        if (line.Count(c => c == '"') % 2 != 0)
        {
            return No("a quote is not closed");
        }

        using var csv = new CsvParser(new StringReader(line), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = separator.ToString(),
            TrimOptions = TrimOptions.Trim,
            BadDataFound = null,
        });
        if (!csv.Read() || csv.Record is not { Length: Fields } f)
        {
            return No($"has {csv.Record?.Length ?? 0} fields instead of {Fields}");
        }

        if (f.Any(x => x.Length > LongestField || x.Any(char.IsControl)))
        {
            return No($"a field is longer than {LongestField} letters or has letters that cannot be written");
        }

        if (OrderHead.Wrong(f[0], f[1]) is { } head)
        {
            return No(head.Message);
        }

        decimal? Mm(string text, decimal least) => decimal.TryParse(
            separator is ';' ? text.Replace(',', '.') : text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm) && mm >= least && mm < 100_000 ? mm : null;
        if (Mm(f[5], 1) is not { } width || Mm(f[6], 1) is not { } height)
        {
            return No($"“{f[5]}” × “{f[6]}” is no size; write mm, as 300 and 200.5");
        }

        if (Mm(f[7].Length == 0 ? "0" : f[7], 0) is not { } border || Mm(f[9].Length == 0 ? "0" : f[9], 0) is not { } around)
        {
            return No($"“{f[7]}” or “{f[9]}” is no width in mm");
        }

        if (Edges.Read(f[8]) is not { } edge)
        {
            return No($"“{f[8]}” is no edge; write {Edges.Words}");
        }

        if (!int.TryParse(f[10], NumberStyles.None, CultureInfo.InvariantCulture, out var copies))
        {
            return No($"“{f[10]}” is no number of copies");
        }

        if (Promised(f[11], zone) is not { } promised)
        {
            return No($"“{f[11]}” is no day; write it as 2026-03-06, or 2026-03-06 14:00");
        }

        static Length Of(decimal mm) => Length.FromMicrometres((long)decimal.Round(mm * 1000));
        var wish = new PrintWish("", f[2], f[3], Of(width), Of(height), Of(border), edge, Of(around), new(f[4]), copies, UsualDistance);
        return wish.Wrong() is { } wrong ? No(wrong.Message) : new(number, new(f[0], f[1], promised, wish, string.Join('\n', f)), null);
    }

    private static readonly Length UsualDistance = Length.FromMillimetres(500);

    // A day alone is promised for noon.
    private static DateTimeOffset? Promised(string text, TimeZoneInfo zone) =>
        DateTime.TryParseExact(text, ["yyyy-MM-dd HH:mm", "yyyy-MM-ddTHH:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var at)
            ? new(at, zone.GetUtcOffset(at))
            : DateTime.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
                ? new(day.AddHours(12), zone.GetUtcOffset(day.AddHours(12)))
                : null;

    public sealed record CannotBeRead(string Why) : Refusal($"{Why} Nothing was taken in.");
}

/// <summary>A line of an order list: what it asks for, or why it is refused.</summary>
internal sealed record OrderListLine(int Number, OrderListLine.Order? Asks, string? Wrong)
{
    /// <param name="Content">The line's own fields: the same line again is the same print.</param>
    internal sealed record Order(string Client, string Reference, DateTimeOffset Promised, PrintWish Print, string Content);
}
