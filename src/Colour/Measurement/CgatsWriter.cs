using System.Globalization;
using System.Text;

namespace Goodsheet.Colour.Measurement;

/// <summary>Writes measurements as CGATS.17 text, for other programs and for safe keeping.</summary>
public static class CgatsWriter
{
    /// <summary>The text of a set: ids, device values, Lab, spectra where all patches have them on one grid.</summary>
    /// <param name="set">What to write.</param>
    /// <param name="originator">Who made it; line breaks and quotes are made blanks.</param>
    /// <param name="descriptor">What it is; line breaks and quotes are made blanks.</param>
    /// <remarks>Numbers are written with all their digits; device values as 0 to 100. Lines end in CR LF.</remarks>
    /// <exception cref="ArgumentException">The set is empty.</exception>
    public static string Write(MeasurementSet set, string originator, string descriptor)
    {
        if (set.Patches.IsEmpty)
        {
            throw new ArgumentException("A set without patches cannot be written.", nameof(set));
        }

        var first = set.Patches[0].Spectrum;
        var spectral = first is not null && set.Patches.All(p => p.Spectrum is { } s
            && s.StartNm == first.StartNm && s.StepNm == first.StepNm && s.Values.Length == first.Values.Length);
        var named = set.Patches.Any(p => p.Name is not null);
        List<string> fields = ["SAMPLE_ID", .. named ? (string[])["SAMPLE_NAME"] : [], .. DeviceFields(set), "LAB_L", "LAB_A", "LAB_B"];
        if (spectral)
        {
            fields.AddRange(Enumerable.Range(0, first!.Values.Length).Select(i => $"SPECTRAL_NM{Number(first.StartNm + (i * first.StepNm))}"));
        }

        var text = new StringBuilder();
        Line("CGATS.17");
        Line($"ORIGINATOR\t{Quoted(originator)}");
        Line($"DESCRIPTOR\t{Quoted(descriptor)}");
        if (set.Condition != MCondition.Unknown)
        {
            Line($"MEASUREMENT_CONDITION\t\"{set.Condition}\"");
        }

        Line($"NUMBER_OF_FIELDS\t{fields.Count}");
        Line("BEGIN_DATA_FORMAT");
        Line(string.Join('\t', fields));
        Line("END_DATA_FORMAT");
        Line($"NUMBER_OF_SETS\t{set.Patches.Length}");
        Line("BEGIN_DATA");
        foreach (var patch in set.Patches)
        {
            List<string> cells = [Quoted(patch.Id), .. named ? (string[])[Quoted(patch.Name ?? "")] : []];
            cells.AddRange(patch.Device.Select(v => Number(v * 100)));
            cells.AddRange(((double[])[patch.Lab.L, patch.Lab.A, patch.Lab.B]).Select(Number));
            cells.AddRange(spectral ? patch.Spectrum!.Values.Select(Number) : []);
            Line(string.Join('\t', cells));
        }

        Line("END_DATA");
        return text.ToString();

        void Line(string line) => text.Append(line).Append("\r\n");
    }

    private static IEnumerable<string> DeviceFields(MeasurementSet set) => set.Space switch
    {
        DeviceSpace.None => [],
        DeviceSpace.Grey => ["GRAY_K"],
        DeviceSpace.Rgb => ["RGB_R", "RGB_G", "RGB_B"],
        DeviceSpace.Cmyk => ["CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"],
        DeviceSpace.Inks => Enumerable.Range(1, set.Channels).Select(i => $"PC{set.Channels}_{i}"),
        _ => throw new ArgumentOutOfRangeException(nameof(set)),
    };

    private static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static string Quoted(string text) =>
        $"\"{new string([.. text.Select(c => c == '"' || char.IsControl(c) ? ' ' : c)])}\"";
}
