using System.Globalization;

namespace Goodsheet.Colour.Colorimetry;

/// <summary>A published table that is built into this library as CSV: a header, then rows of numbers.</summary>
internal sealed record Table(string[] Columns, double[][] Rows)
{
    public static Table Embedded(string file)
    {
        var assembly = typeof(Table).Assembly;
        var name = assembly.GetManifestResourceNames().Single(n => n.EndsWith('.' + file, StringComparison.Ordinal));
        using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
        var lines = reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return new(
            lines[0].Split(','),
            [.. lines.Skip(1).Select(line => line.Split(',').Select(c => double.Parse(c, CultureInfo.InvariantCulture)).ToArray())]);
    }

    public double[] Column(string name) => [.. Rows.Select(r => r[Array.IndexOf(Columns, name)])];
}
