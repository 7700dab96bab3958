using System.Text;

namespace Goodsheet.Colour.Measurement;

/// <summary>Plain CSV (RFC 4180) with one header line; parted by comma, semicolon or tab; # begins a comment line.</summary>
internal static class CsvText
{
    public static RawTable Parse(string[] lines, ReadLimits limits)
    {
        var head = Array.FindIndex(lines, HasContent);
        if (head < 0)
        {
            throw new FaultException(0, "The file is empty.");
        }

        var by = ";\t,".MaxBy(c => lines[head].Count(x => x == c));
        var table = new RawTable { Fields = Cells(lines[head], by), FieldsLine = head + 1 };
        if (table.Fields.Length < 2)
        {
            throw new FaultException(head + 1, "This is neither CGATS text nor a table with a header: no fields are named.");
        }

        if (table.Fields.Length > limits.Fields)
        {
            throw new FaultException(head + 1, $"There are more than {limits.Fields} fields.");
        }

        for (var i = head + 1; i < lines.Length; i++)
        {
            if (!HasContent(lines[i]))
            {
                continue;
            }

            if (table.Rows.Count == limits.Rows)
            {
                throw new FaultException(i + 1, $"There are more than {limits.Rows:N0} rows.");
            }

            var cells = Cells(lines[i], by);
            table.Rows.Add(cells.Length == table.Fields.Length
                ? new(i + 1, cells)
                : throw new FaultException(i + 1, $"The row has {cells.Length} values where {table.Fields.Length} fields are named."));
        }

        return table;
    }

    private static bool HasContent(string line) => line.AsSpan().Trim() is { IsEmpty: false } text && text[0] != '#';

    private static string[] Cells(string line, char by)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            var c = line[i];
            if (quoted && c == '"' && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append('"');
                i++;
            }
            else if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == by && !quoted)
            {
                cells.Add(cell.ToString().Trim());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        cells.Add(cell.ToString().Trim());
        return [.. cells];
    }
}
