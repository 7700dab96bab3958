using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Measurement;

/// <summary>From a table of text to colours: numbers, scales, conditions.</summary>
internal static partial class TableReading
{
    // Fluorescing papers reach about 1.3 in the blue; a percent scale has its paper near 90.
    private const double MostReflectance = 2;
    private const double LeastReflectance = -0.05;

    public static MeasurementSet Interpret(RawTable table)
    {
        if (table.Rows.Count == 0)
        {
            throw new FaultException(table.FieldsLine, "The file names its fields but holds no row.");
        }

        var map = FieldMap.Of(table);
        var commas = false;
        var device = Numbers(table, map.Device, ref commas);
        var spectra = Numbers(table, map.Spectrum, ref commas);
        var colours = Colours(table, map, ref commas);
        if (commas)
        {
            table.Note(ReadFindingKind.DecimalComma, "Numbers are written with a comma.");
        }

        DeviceScale.Apply(table, device, map.Space);
        ScaleReflectance(table, spectra);
        var patches = ImmutableArray.CreateBuilder<Patch>(table.Rows.Count);
        for (var i = 0; i < table.Rows.Count; i++)
        {
            var cells = table.Rows[i].Cells;
            var spectrum = map.Spectrum.Length == 0 ? null : new Spectrum(map.StartNm, map.StepNm, [.. spectra[i]]);
            patches.Add(new(
                map.Id is { } id ? cells[id] : (i + 1).ToString(CultureInfo.InvariantCulture),
                [.. device[i]],
                spectrum is null ? colours[i] : TristimulusWeights.D50.ToLab(spectrum),
                spectrum,
                map.Name is { } name ? cells[name] : null));
        }

        NoteIds(table, map, patches);
        return new(map.Space, map.Device.Length, Condition(table), patches.MoveToImmutable());
    }

    // Lab is asked before XYZ: with two decimals, the darks of XYZ are the coarser.
    private static Lab[] Colours(RawTable table, FieldMap map, ref bool commas)
    {
        if (map.Spectrum.Length > 0)
        {
            return [];
        }

        var numbers = Numbers(table, map.Lab.Length > 0 ? map.Lab : map.Xyz, ref commas);
        for (var i = 0; i < numbers.Length; i++)
        {
            if (map.Lab.Length > 0 && (numbers[i][0] is < -1 or > 150 || Math.Abs(numbers[i][1]) > 300 || Math.Abs(numbers[i][2]) > 300))
            {
                throw new FaultException(table.Rows[i].Line, "The Lab value is outside anything that can be measured.");
            }
        }

        if (map.Lab.Length > 0)
        {
            return [.. numbers.Select(n => new Lab(n[0], n[1], n[2]))];
        }

        // Y runs to 1 or to 100.
        var scale = numbers.Max(n => n[1]) <= 1.5 ? 100 : 1;
        return [.. numbers.Select(n => new Xyz(n[0] * scale, n[1] * scale, n[2] * scale).ToLab(Xyz.D50))];
    }

    private static double[][] Numbers(RawTable table, int[] columns, ref bool commas)
    {
        var rows = new double[table.Rows.Count][];
        for (var i = 0; i < rows.Length; i++)
        {
            var (line, cells) = table.Rows[i];
            rows[i] = new double[columns.Length];
            for (var c = 0; c < columns.Length; c++)
            {
                var text = cells[columns[c]];
                var comma = text.Contains(',');
                commas |= comma;
                if (!double.TryParse(comma ? text.Replace(',', '.') : text, NumberStyles.Float, CultureInfo.InvariantCulture, out rows[i][c])
                    || !(Math.Abs(rows[i][c]) < 1e6))
                {
                    throw new FaultException(line, text.Length == 0
                        ? $"The value of {table.Fields[columns[c]]} is missing."
                        : $"The value of {table.Fields[columns[c]]} is not a usable number: \"{(text.Length > 20 ? text[..20] + "..." : text)}\".");
                }
            }
        }

        return rows;
    }

    private static void ScaleReflectance(RawTable table, double[][] spectra)
    {
        if (spectra[0].Length == 0)
        {
            return;
        }

        if (spectra.Max(s => s.Max()) > MostReflectance)
        {
            table.Note(ReadFindingKind.ReflectancePercent, "Reflectance was taken as percent.");
            foreach (var spectrum in spectra)
            {
                for (var i = 0; i < spectrum.Length; i++)
                {
                    spectrum[i] /= 100;
                }
            }
        }

        var odd = Array.FindIndex(spectra, s => s.Min() < LeastReflectance || s.Max() > MostReflectance);
        if (odd >= 0)
        {
            table.Note(ReadFindingKind.OddReflectance, $"Line {table.Rows[odd].Line} has a reflectance below 0 or far above 1: was the instrument calibrated?");
        }
    }

    private static void NoteIds(RawTable table, FieldMap map, ImmutableArray<Patch>.Builder patches)
    {
        if (map.Id is null)
        {
            return;
        }

        if (patches.GroupBy(p => p.Id).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            table.Note(ReadFindingKind.RepeatedId, $"The sample id {twice.Key} stands on {twice.Count()} rows.");
        }

        var ids = patches.Select(p => int.TryParse(p.Id, NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id : -1).ToArray();
        if (!ids.Contains(-1) && ids.Zip(ids.Skip(1)).Any(p => p.Second < p.First))
        {
            table.Note(ReadFindingKind.ChartOrder, "Rows do not follow the order of the sample ids; the order of the file was kept.");
        }
    }

    private static MCondition Condition(RawTable table)
    {
        foreach (var (keyword, value) in table.Header.Where(h => h.Keyword is "MEASUREMENT_CONDITION" or "MEASUREMENT_SOURCE" or "FILTER"))
        {
            if (MName().Match(value) is { Success: true } m)
            {
                return Enum.Parse<MCondition>(m.Value);
            }
        }

        table.Note(ReadFindingKind.ConditionUnknown, "The file does not say under which M-condition it was read.");
        return MCondition.Unknown;
    }

    [GeneratedRegex(@"\bM[0-3]\b")]
    private static partial Regex MName();
}
