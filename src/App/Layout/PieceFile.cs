using System.Globalization;
using System.Text;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Layout;

/// <summary>The list of pieces as a CSV file: <c>name,width_mm,height_mm,copies</c>, a line each, a point for decimals.</summary>
public static class PieceFile
{
    public const int MostBytes = 1_000_000;
    private const int LongestName = 100;
    private const string Heading = "name,width_mm,height_mm,copies";

    /// <summary>The pieces, or what is wrong with the first line that cannot be read.</summary>
    public static async Task<Outcome<Piece[]>> ReadAsync(string path, bool mayTurn, CancellationToken cancel)
    {
        var file = new FileInfo(path);
        if (!file.Exists)
        {
            return new NoFile(path);
        }

        if (file.Length > MostBytes)
        {
            return new TooBig(path);
        }

        var lines = (await File.ReadAllTextAsync(path, Encoding.UTF8, cancel)).TrimStart('\uFEFF').Split('\n');
        if (!lines[0].Trim().Replace(" ", "", StringComparison.Ordinal).Equals(Heading, StringComparison.OrdinalIgnoreCase))
        {
            return new BadLine(1, $"the heading has to be {Heading}");
        }

        var pieces = new List<Piece>();
        for (var i = 1; i < lines.Length; i++)
        {
            if (string.IsNullOrWhiteSpace(lines[i]))
            {
                continue;
            }

            if (pieces.Count == NestPacker.MostCopies)
            {
                return new BadLine(i + 1, $"there are more than {NestPacker.MostCopies} pieces");
            }

            var (piece, why) = Read(lines[i], mayTurn);
            if (piece is null)
            {
                return new BadLine(i + 1, why);
            }

            pieces.Add(piece);
        }

        return pieces.Count == 0 ? new BadLine(1, "no piece follows the heading") : pieces.ToArray();
    }

    private static (Piece? Piece, string Why) Read(string line, bool mayTurn)
    {
        if (Fields(line.TrimEnd('\r')) is not [var name, var width, var height, var copies])
        {
            return (null, $"it has not four fields: {Heading}");
        }

        if (name.Trim() is not { Length: > 0 and <= LongestName } bare || bare.Any(char.IsControl))
        {
            return (null, $"the name has to be 1 to {LongestName} letters");
        }

        var (w, h) = (LengthText.Read(width + "mm"), LengthText.Read(height + "mm"));
        if ((w.Refusal ?? h.Refusal) is { } no)
        {
            return (null, no.Message);
        }

        if (w.Value!.Length <= Length.Zero || h.Value!.Length <= Length.Zero)
        {
            return (null, "width and height have to be more than zero");
        }

        return int.TryParse(copies.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var n) && n is >= 1 and <= NestPacker.MostCopies
            ? (new(bare, w.Value.Length, h.Value.Length, n, mayTurn), "")
            : (null, $"copies has to be a whole number from 1 to {NestPacker.MostCopies}");
    }

    /// <summary>Parted at commas, but not within quotes; two quotes within quotes are one (RFC 4180, on one line).</summary>
    private static List<string> Fields(string line)
    {
        var fields = new List<string>();
        var field = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            if (line[i] == '"' && quoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                field.Append(line[i++]);
            }
            else if (line[i] == '"')
            {
                quoted = !quoted;
            }
            else if (line[i] == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(line[i]);
            }
        }

        fields.Add(field.ToString());
        return quoted ? [] : fields;
    }

    public sealed record NoFile(string Path) : Refusal($"There is no file {Path}.");

    public sealed record TooBig(string Path) : Refusal($"{Path} is larger than {MostBytes / 1000} kB, so it is no list of pieces.");

    public sealed record BadLine(int Line, string Why) : Refusal($"Line {Line} of the pieces cannot be read: {Why}. Nothing was laid out.");
}
