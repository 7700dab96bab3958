using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace Goodsheet.App.Opening;

/// <summary>What a list of the opening day is of, told by its heading. They are taken in in this order.</summary>
public enum OpeningKind
{
    Papers,
    Suppliers,
    Clients,
    Consumables,
    Prices,
    Shelf,
    Profiles,
}

/// <summary>One list: its kind, and its lines by the names of their columns.</summary>
internal sealed record OpeningFile(string Name, OpeningKind Kind, IReadOnlyList<OpeningFile.Row> Rows, string Text)
{
    public const int MostBytes = 2_000_000;
    private const int MostLines = 20_000;
    private const int LongestField = 500;

    // The first whose columns are all there; the shelf's are some of the prices' too, so the longer ones come first.
    private static readonly (OpeningKind Kind, string[] Needs, string[] May)[] Kinds =
    [
        (OpeningKind.Prices, ["supplier", "paper", "format", "pack", "price"], ["from", "from_packs"]),
        (OpeningKind.Profiles, ["file", "printer", "paper"], ["media_setting"]),
        (OpeningKind.Shelf, ["paper", "format", "quantity"], ["best_before", "place", "makers_number", "supplier", "reserve"]),
        (OpeningKind.Consumables, ["name", "kind", "quantity"], ["printer", "channel", "ml", "best_before", "reorder_at", "place", "makers_number"]),
        (OpeningKind.Papers, ["name", "class", "grammage"], ["base", "coat", "sides", "feed", "drying_hours"]),
        (OpeningKind.Suppliers, ["name", "cut_off", "lead_days"], ["email", "time_zone", "carriage", "carriage_free_from", "minimum_order", "holidays"]),
        (OpeningKind.Clients, ["name", "contact"], []),
    ];

    public static string Heading(OpeningKind kind)
    {
        var (_, needs, may) = Kinds.Single(k => k.Kind == kind);
        return string.Join(',', needs.Concat(may));
    }

    /// <summary>Reads a list, or says why it cannot be read.</summary>
    public static (OpeningFile? File, string? Wrong) Read(string name, string text)
    {
        text = text.TrimStart('\uFEFF');
        var first = text.AsSpan()[..(text.IndexOf('\n') is var end and >= 0 ? end : text.Length)];
        var between = first.Contains(';') ? ";" : first.Contains('\t') ? "\t" : ",";
        using var csv = new CsvReader(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = between,
            TrimOptions = TrimOptions.Trim,
            BadDataFound = null,
            MissingFieldFound = null,
            MaxFieldSize = LongestField,
            PrepareHeaderForMatch = h => h.Header.ToLowerInvariant(),
        });
        try
        {
            if (!csv.Read() || !csv.ReadHeader())
            {
                return (null, "is empty");
            }

            string[] columns = [.. csv.HeaderRecord!.Select(c => c.ToLowerInvariant())];
            if (Kinds.FirstOrDefault(k => k.Needs.All(columns.Contains)) is not { Needs: not null } found)
            {
                return (null, "has a first line that names no list of this room: it needs the columns of one of them");
            }

            if (columns.FirstOrDefault(c => !found.Needs.Contains(c) && !found.May.Contains(c)) is { } unknown)
            {
                return (null, $"has a column “{unknown}”, which is not known; those of this list are {Heading(found.Kind)}");
            }

            if (columns.Distinct().Count() < columns.Length)
            {
                return (null, "names a column twice");
            }

            var rows = new List<Row>();
            while (csv.Read())
            {
                if (rows.Count == MostLines)
                {
                    return (null, $"has more than {MostLines} lines");
                }

                rows.Add(new(csv.Parser.RawRow, csv.Parser.Count == columns.Length ? null : $"has {csv.Parser.Count} fields instead of {columns.Length}",
                    columns.Select((c, at) => (c, csv[at] ?? "")).ToDictionary(c => c.c, c => c.Item2)));
            }

            return rows.Count == 0 ? (null, "has no line under its heading") : (new(name, found.Kind, rows, text), null);
        }
        catch (CsvHelperException e)
        {
            return (null, $"is broken at line {e.Context?.Parser?.RawRow}");
        }
    }

    /// <param name="Line">Its line in the file, from 1.</param>
    /// <param name="Broken">What is wrong with it as a line; none when nothing is.</param>
    public sealed record Row(int Line, string? Broken, IReadOnlyDictionary<string, string> Fields)
    {
        public string this[string column] => Fields.GetValueOrDefault(column, "");
    }
}
