using System.Text;

namespace Goodsheet.Colour.Measurement;

/// <summary>Words of a line: parted by blanks and tabs, kept together by quotes, a doubled quote being one.</summary>
internal static class Tokens
{
    /// <summary>The words of a line without its comment. A line that was quoted as a whole is opened first.</summary>
    public static List<string> OfLine(string line)
    {
        var tokens = Split(line);
        return tokens is [var whole] && line.AsSpan().TrimStart().StartsWith("\"") && whole.AsSpan().Trim().IndexOfAny(" \t") >= 0
            ? Split(whole)
            : tokens;
    }

    private static List<string> Split(string line)
    {
        var tokens = new List<string>();
        for (var i = 0; i < line.Length;)
        {
            if (char.IsWhiteSpace(line[i]))
            {
                i++;
            }
            else if (line[i] == '#')
            {
                break;
            }
            else if (line[i] == '"')
            {
                tokens.Add(Quoted(line, ref i));
            }
            else
            {
                var from = i;
                while (i < line.Length && !char.IsWhiteSpace(line[i]))
                {
                    i++;
                }

                tokens.Add(line[from..i]);
            }
        }

        return tokens;
    }

    // A quote that is never closed runs to the end of the line.
    private static string Quoted(string line, ref int i)
    {
        var text = new StringBuilder();
        for (i++; i < line.Length; i++)
        {
            if (line[i] != '"')
            {
                text.Append(line[i]);
            }
            else if (i + 1 < line.Length && line[i + 1] == '"')
            {
                text.Append('"');
                i++;
            }
            else
            {
                i++;
                break;
            }
        }

        return text.ToString();
    }
}
