namespace Goodsheet.Colour.Measurement;

/// <summary>A row of a table as text, with the line that it stands on.</summary>
internal readonly record struct RawRow(int Line, string[] Cells);

/// <summary>A table as text, before anybody asks what it means.</summary>
internal sealed class RawTable
{
    public string[] Fields { get; set; } = [];

    public int FieldsLine { get; set; } = 1;

    public List<RawRow> Rows { get; } = [];

    /// <summary>Header lines: a keyword and its value. Keywords may repeat.</summary>
    public List<(string Keyword, string Value)> Header { get; } = [];

    public List<ReadFinding> Findings { get; } = [];

    /// <summary>The M-conditions of a file that holds several; empty otherwise.</summary>
    public MCondition[] Conditions { get; set; } = [];

    public void Note(ReadFindingKind kind, string message) => Findings.Add(new(kind, message));
}
