using System.Text;

namespace Goodsheet.Colour.Measurement;

/// <summary>Reads what measuring instruments write: CGATS.17 and ISO 28178 text, CxF, or plain CSV with a header.</summary>
/// <remarks>
/// Files of the wild differ in many small ways: quoting of whole lines, stray tabs and blank lines, several namings of
/// wavelengths, several scales. All of these are taken; what had to be guessed is said in the findings. CxF3 and the tints
/// of CxF/X-4 are read as public descriptions have them: no conformity with ISO 17972 is claimed.
/// </remarks>
public static class MeasurementFile
{
    private static readonly UTF8Encoding StrictUtf8 = new(false, true);

    /// <summary>Reads a file.</summary>
    /// <param name="bytes">The whole file.</param>
    /// <param name="limits">What it may hold at most; the defaults if left out.</param>
    /// <param name="wanted">Which M-condition to take of a file that holds several; the first of M1, M0, M2, M3 if left out.</param>
    /// <returns>A set with findings, or a fault with the line. No content makes it throw.</returns>
    public static ReadResult Read(ReadOnlySpan<byte> bytes, ReadLimits? limits = null, MCondition? wanted = null)
    {
        limits ??= new();
        try
        {
            if (bytes.Length > limits.Bytes)
            {
                throw new FaultException(0, $"The file has {bytes.Length:N0} bytes; at most {limits.Bytes:N0} are read.");
            }

            var findings = new List<ReadFinding>();
            var text = Text(bytes, findings);
            var table = CxfText.IsXml(text) ? CxfTable.Of(CxfText.Parse(text, limits), wanted) : Table(Lines(text, limits), limits);
            var set = TableReading.Interpret(table);
            return new(set, findings.Concat(table.Findings), table.Conditions);
        }
        catch (FaultException e)
        {
            return new(e.Fault);
        }
    }

    private static RawTable Table(string[] lines, ReadLimits limits) =>
        Array.Exists(lines, CgatsText.StartsFormat) ? CgatsText.Parse(lines, limits) : CsvText.Parse(lines, limits);

    private static string Text(ReadOnlySpan<byte> bytes, List<ReadFinding> findings)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
        {
            return Encoding.Unicode.GetString(bytes[2..]).TrimEnd('\0');
        }

        bytes = bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]) ? bytes[3..] : bytes;
        bytes = bytes.TrimEnd((byte)0); // some writers pad with them
        if (bytes.Contains((byte)0))
        {
            throw new FaultException(0, "This is not a text file.");
        }

        try
        {
            return StrictUtf8.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            findings.Add(new(ReadFindingKind.OldEncoding, "The text is not UTF-8 and was read as Windows-1252."));
            return CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetString(bytes);
        }
    }

    private static string[] Lines(string text, ReadLimits limits)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        var tooLong = Array.FindIndex(lines, l => l.Length > limits.LineLength);
        return tooLong < 0 ? lines : throw new FaultException(tooLong + 1, $"The line is longer than {limits.LineLength:N0} characters.");
    }
}
