using System.Globalization;

namespace Goodsheet.Colour.Measurement;

/// <summary>From the objects of a CxF file to the same table as any other file's: one row a patch, for one M-condition.</summary>
internal static class CxfTable
{
    // Daylight with its ultraviolet first: what is seen in the booth.
    private static readonly MCondition[] Preferred = [MCondition.M1, MCondition.M0, MCondition.M2, MCondition.M3, MCondition.Unknown];

    /// <param name="document">The file.</param>
    /// <param name="wanted">The M-condition that is asked for; none for the first of M1, M0, M2, M3.</param>
    public static RawTable Of(CxfDocument document, MCondition? wanted)
    {
        var table = new RawTable();
        var read = document.Objects.Where(o => o.Colours.Count > 0).ToList();
        if (read.Count == 0)
        {
            throw new FaultException(0, "The file holds no object with a colour: neither a spectrum, nor XYZ, nor Lab.");
        }

        read = OneGround(read, table);
        var there = read.SelectMany(o => o.Colours.Select(c => ConditionOf(document, o, c))).ToHashSet();
        var condition = wanted is { } asked ? (there.Contains(asked) ? asked : throw new FaultException(0, $"The file has no reading in {asked}: only {Words(there)}."))
            : Preferred.First(there.Contains);
        if (there.Count > 1)
        {
            table.Conditions = [.. there.Order()];
            table.Note(ReadFindingKind.MoreConditions, $"The file holds readings in {Words(there)}; {condition} was taken.");
        }

        if (condition != MCondition.Unknown)
        {
            table.Header.Add(("MEASUREMENT_CONDITION", condition.ToString()));
        }

        var ofIts = Targets(document);
        foreach (var patch in read)
        {
            var colour = patch.Colours.Where(c => ConditionOf(document, patch, c) == condition).MinBy(c => c.Kind);
            if (colour is not null)
            {
                AddRow(table, document, patch, colour, patch.Device.Count > 0 ? patch : ofIts.GetValueOrDefault(patch.Name));
            }
        }

        return table;
    }

    public static MCondition Condition(string words)
    {
        var at = words.IndexOf('M', StringComparison.Ordinal);
        return at >= 0 && at + 1 < words.Length && words[at + 1] is >= '0' and <= '3' && (at + 2 == words.Length || !char.IsAsciiLetterOrDigit(words[at + 2]))
            ? MCondition.M0 + (words[at + 1] - '0') : MCondition.Unknown;
    }

    // A spot ink is measured on paper and on black: two different grounds make no one chart.
    private static List<CxfObject> OneGround(List<CxfObject> read, RawTable table)
    {
        if (read.FirstOrDefault(o => o.IsTint) is not { } first)
        {
            return read;
        }

        var taken = read.Where(o => o.IsTint && o.Type == first.Type).ToList();
        if (taken.Count < read.Count)
        {
            table.Note(ReadFindingKind.MoreTables, "The file holds more than one set of tints or objects; the first set of tints was read.");
        }

        return taken;
    }

    // Device values that stand at an object of their own with the same name.
    private static Dictionary<string, CxfObject> Targets(CxfDocument document)
    {
        Dictionary<string, CxfObject> targets = [];
        foreach (var o in document.Objects.Where(o => o.Device.Count > 0 && o.Name.Length > 0))
        {
            targets.TryAdd(o.Name, o);
        }

        return targets;
    }

    private static void AddRow(RawTable table, CxfDocument document, CxfObject patch, CxfColour colour, CxfObject? target)
    {
        var specification = document.Specifications.GetValueOrDefault(colour.Specification) ?? new();
        var (device, values) = (Device(target, patch.Line), Colour(colour, specification, patch.Line));
        string[] fields = ["SAMPLE_ID", "SAMPLE_NAME", .. device.Fields, .. values.Fields];
        if (table.Fields.Length == 0)
        {
            (table.Fields, table.FieldsLine) = (fields, patch.Line);
        }
        else if (!table.Fields.AsSpan().SequenceEqual(fields))
        {
            throw new FaultException(patch.Line, "The object has other device values, or another kind of colour, than the first.");
        }

        table.Rows.Add(new(patch.Line, [(table.Rows.Count + 1).ToString(CultureInfo.InvariantCulture), patch.Name, .. device.Cells, .. values.Cells]));
    }

    private static (string[] Fields, IEnumerable<string> Cells) Device(CxfObject? target, int line)
    {
        if (target is null)
        {
            return ([], []);
        }

        string[] fields = string.Concat(target.Device.Select(d => d.Channel[0])) switch
        {
            "RGB" => ["RGB_R", "RGB_G", "RGB_B"],
            "CMYB" => ["CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"],
            _ => [.. target.Device.Select((_, i) => $"PC{target.Device.Count}_{i + 1}")],
        };
        if (target.MaxRange.Length == 0)
        {
            return (fields, target.Device.Select(d => d.Value));
        }

        var top = Number(target.MaxRange, line, "the largest device value");
        return top > 0 ? (fields, target.Device.Select(d => Written(Number(d.Value, line, "a device value") / top)))
            : throw new FaultException(line, "The largest device value is said to be 0.");
    }

    private static (string[] Fields, IEnumerable<string> Cells) Colour(CxfColour colour, CxfSpecification specification, int line)
    {
        if (colour.Kind is CxfKind.Spectrum)
        {
            var start = Number(colour.Start.Length > 0 ? colour.Start : specification.Start, line, "the wavelength at which spectra begin");
            var step = specification.Step.Length > 0 ? Number(specification.Step, line, "the step of the wavelengths") : 10;
            return start is >= 200 and <= 800 && step is >= 0.5 and <= 20
                ? ([.. colour.Values.Select((_, i) => $"SPECTRAL_NM{Written(start + (i * step))}")], colour.Values)
                : throw new FaultException(line, $"Wavelengths from {Written(start)} nm in steps of {Written(step)} give no colour.");
        }

        if (specification.Illuminant is not ("" or "D50") || specification.Observer.StartsWith("10", StringComparison.Ordinal))
        {
            throw new FaultException(line, $"The colours are for {Short(specification.Illuminant)} and {Short(specification.Observer)}; without spectra only D50 and 2 degrees can be used.");
        }

        return (colour.Kind is CxfKind.Lab ? ["LAB_L", "LAB_A", "LAB_B"] : ["XYZ_X", "XYZ_Y", "XYZ_Z"], colour.Values);
    }

    private static MCondition ConditionOf(CxfDocument document, CxfObject patch, CxfColour colour) =>
        document.Specifications.GetValueOrDefault(colour.Specification)?.Condition is { } said and not MCondition.Unknown ? said : Condition(patch.Type);

    private static double Number(string text, int line, string what) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && Math.Abs(number) < 1e6 ? number
            : throw new FaultException(line, text.Length == 0 ? $"The file does not say {what}." : $"What the file gives as {what} is not a usable number: \"{Short(text)}\".");

    private static string Written(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);

    private static string Short(string text) => text.Length > 20 ? text[..20] + "..." : text;

    private static string Words(IEnumerable<MCondition> conditions) =>
        string.Join(", ", conditions.Order().Select(c => c is MCondition.Unknown ? "no condition that it names" : c.ToString()));
}
