using System.Globalization;

namespace Goodsheet.Colour.Measurement;

/// <summary>The grammar of CGATS.17 and ISO 28178: header lines, the names of the fields, the rows.</summary>
internal static class CgatsText
{
    public static bool StartsFormat(string line) => Keyword(line) == "BEGIN_DATA_FORMAT";

    public static RawTable Parse(string[] lines, ReadLimits limits)
    {
        var table = new RawTable();
        var at = Header(lines, 0, table);
        at = Format(lines, at, table, limits);
        at = Header(lines, at, table);
        at = Data(lines, at, table, limits);
        CheckCounts(table);
        if (Array.FindIndex(lines, at, StartsFormat) >= 0)
        {
            table.Note(ReadFindingKind.MoreTables, "The file holds more than one table; the first was read.");
        }

        return table;
    }

    // Reads up to the next BEGIN_... and returns the line after it.
    private static int Header(string[] lines, int from, RawTable table)
    {
        var first = true;
        for (var i = from; i < lines.Length; i++)
        {
            var tokens = Tokens.OfLine(lines[i]);
            if (tokens.Count == 0)
            {
                continue;
            }

            var keyword = tokens[0].ToUpperInvariant();
            if (keyword is "BEGIN_DATA_FORMAT" or "BEGIN_DATA")
            {
                if (keyword == "BEGIN_DATA" == (table.Fields.Length == 0))
                {
                    throw new FaultException(i + 1, $"{keyword} does not belong here: the names of the fields come once, before the data.");
                }

                return i + 1;
            }

            if (first && from == 0 && !keyword.StartsWith("CGATS", StringComparison.Ordinal) && !keyword.StartsWith("ISO", StringComparison.Ordinal))
            {
                table.Note(ReadFindingKind.UnknownFormat, "The first line names neither CGATS.17 nor ISO 28178; it was read as such all the same.");
            }

            first = false;
            table.Header.Add((keyword, string.Join(' ', tokens.Skip(1))));
        }

        throw new FaultException(lines.Length, table.Fields.Length == 0 ? "There is no BEGIN_DATA_FORMAT." : "There is no BEGIN_DATA.");
    }

    private static int Format(string[] lines, int from, RawTable table, ReadLimits limits)
    {
        var names = new List<string>();
        for (var i = from; i < lines.Length; i++)
        {
            var tokens = Tokens.OfLine(lines[i]);
            if (tokens is ["END_DATA_FORMAT", ..])
            {
                table.Fields = names.Count > 0 ? [.. names] : throw new FaultException(i + 1, "No fields are named.");
                table.FieldsLine = i;
                return i + 1;
            }

            names.AddRange(tokens);
            if (names.Count > limits.Fields)
            {
                throw new FaultException(i + 1, $"There are more than {limits.Fields} fields.");
            }
        }

        throw new FaultException(lines.Length, "END_DATA_FORMAT is missing: the file may be cut off.");
    }

    private static int Data(string[] lines, int from, RawTable table, ReadLimits limits)
    {
        for (var i = from; i < lines.Length; i++)
        {
            var tokens = Tokens.OfLine(lines[i]);
            if (tokens.Count == 0)
            {
                continue;
            }

            if (tokens[0] == "END_DATA")
            {
                return i + 1;
            }

            if (table.Rows.Count == limits.Rows)
            {
                throw new FaultException(i + 1, $"There are more than {limits.Rows:N0} rows.");
            }

            var cells = tokens.Count == table.Fields.Length ? [.. tokens] : ByTabs(lines[i], table.Fields.Length);
            table.Rows.Add(new(i + 1, cells ?? throw new FaultException(
                i + 1, $"The row has {tokens.Count} values where {table.Fields.Length} fields are named.")));
        }

        throw new FaultException(lines.Length, "END_DATA is missing: the file may be cut off.");
    }

    // A row with an empty cell between two tabs; whether the cell was needed is for the reading to say.
    private static string[]? ByTabs(string line, int fields)
    {
        var cells = line.Split('\t', StringSplitOptions.TrimEntries);
        return cells.Length >= fields && cells.Skip(fields).All(c => c.Length == 0) ? [.. cells.Take(fields).Select(c => c.Trim('"'))] : null;
    }

    private static void CheckCounts(RawTable table)
    {
        if (Count("NUMBER_OF_FIELDS") is { } fields && fields != table.Fields.Length)
        {
            table.Note(ReadFindingKind.WrongCount, $"The file says {fields} fields and names {table.Fields.Length}.");
        }

        if (Count("NUMBER_OF_SETS") is not { } sets || sets == table.Rows.Count)
        {
            return;
        }

        if (sets > table.Rows.Count)
        {
            var line = table.Rows.Count > 0 ? table.Rows[^1].Line : table.FieldsLine;
            throw new FaultException(line, $"The file says {sets} rows and holds {table.Rows.Count}: rows are missing.");
        }

        table.Note(ReadFindingKind.WrongCount, $"The file says {sets} rows and holds {table.Rows.Count}; all were read.");

        int? Count(string keyword) =>
            int.TryParse(table.Header.FirstOrDefault(h => h.Keyword == keyword).Value, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : null;
    }

    private static string? Keyword(string line) =>
        line.Contains("BEGIN_DATA_FORMAT", StringComparison.OrdinalIgnoreCase) && Tokens.OfLine(line) is [var first, ..] ? first.ToUpperInvariant() : null;
}
