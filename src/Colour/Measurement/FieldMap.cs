using System.Globalization;
using System.Text.RegularExpressions;

namespace Goodsheet.Colour.Measurement;

/// <summary>Which column holds what, by the names that CGATS.17 and ISO 28178 and their users give to fields.</summary>
internal sealed partial class FieldMap
{
    private FieldMap()
    {
    }

    public int? Id { get; private set; }

    public int? Name { get; private set; }

    public DeviceSpace Space { get; private set; }

    public int[] Device { get; private set; } = [];

    public int[] Lab { get; private set; } = [];

    public int[] Xyz { get; private set; } = [];

    public int[] Spectrum { get; private set; } = [];

    public double StartNm { get; private set; }

    public double StepNm { get; private set; }

    public static FieldMap Of(RawTable table)
    {
        var fields = table.Fields.Select(f => f.ToUpperInvariant()).ToArray();
        if (fields.GroupBy(f => f).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new FaultException(table.FieldsLine, $"The field {twice.Key} is named twice.");
        }

        var map = new FieldMap
        {
            Id = Find(fields, ["SAMPLE_ID", "SAMPLEID", "ID"])?[0],
            Name = Find(fields, ["SAMPLE_NAME", "SAMPLE_LOC", "NAME"])?[0],
            Lab = All(fields, "LAB_L", "LAB_A", "LAB_B") ?? All(fields, "L*", "A*", "B*") ?? [],
            Xyz = All(fields, "XYZ_X", "XYZ_Y", "XYZ_Z") ?? All(fields, "X", "Y", "Z") ?? [],
        };
        map.FindDevice(fields, table.FieldsLine);
        map.FindSpectrum(fields, table.FieldsLine);
        return map.Lab.Length + map.Xyz.Length + map.Spectrum.Length > 0
            ? map
            : throw new FaultException(table.FieldsLine, "The fields name no colour: neither a spectrum, nor XYZ, nor Lab.");
    }

    private void FindDevice(string[] fields, int line)
    {
        (Space, Device) =
            All(fields, "RGB_R", "RGB_G", "RGB_B") is { } rgb ? (DeviceSpace.Rgb, rgb)
            : All(fields, "CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K") is { } cmyk ? (DeviceSpace.Cmyk, cmyk)
            : All(fields, "CMY_C", "CMY_M", "CMY_Y") is { } cmy ? (DeviceSpace.Inks, cmy)
            : All(fields, "R", "G", "B") is { } plainRgb ? (DeviceSpace.Rgb, plainRgb)
            : All(fields, "C", "M", "Y", "K") is { } plainCmyk ? (DeviceSpace.Cmyk, plainCmyk)
            : Find(fields, ["GRAY_K", "GREY_K", "GRAY", "GREY", "GRAY_G"]) is { } grey ? (DeviceSpace.Grey, grey)
            : NInks(fields, line) is { } inks ? (DeviceSpace.Inks, inks)
            : (DeviceSpace.None, []);
    }

    // PC7_1 ... PC7_7 or 7CLR_1 ... 7CLR_7
    private static int[]? NInks(string[] fields, int line)
    {
        var found = fields.Select((f, i) => (Match: NInkField().Match(f), Column: i)).Where(f => f.Match.Success).ToArray();
        if (found.Length == 0)
        {
            return null;
        }

        var stated = Number(found[0].Match.Groups["n"].Value);
        var inOrder = found.OrderBy(f => Number(f.Match.Groups["i"].Value)).ToArray();
        var complete = inOrder.Length == stated && inOrder.Select((f, i) => Number(f.Match.Groups["i"].Value) == i + 1).All(ok => ok);
        return complete ? [.. inOrder.Select(f => f.Column)]
            : throw new FaultException(line, $"The fields name {found.Length} of {stated} inks.");
    }

    private void FindSpectrum(string[] fields, int line)
    {
        var found = fields
            .Select((f, i) => (Match: SpectralField().Match(f), Column: i)).Where(f => f.Match.Success)
            .Select(f => (Nm: double.Parse(f.Match.Groups["nm"].Value, CultureInfo.InvariantCulture), f.Column))
            .OrderBy(f => f.Nm).ToArray();
        if (found.Length < 2)
        {
            return;
        }

        (StartNm, StepNm) = (found[0].Nm, (found[^1].Nm - found[0].Nm) / (found.Length - 1));
        if (StartNm < 200 || found[^1].Nm > 2500 || StepNm is < 0.5 or > 20 || StartNm + StepNm > 780 || found[^1].Nm < 600)
        {
            throw new FaultException(line, $"Wavelengths from {StartNm} to {found[^1].Nm} nm in {found.Length} steps give no colour.");
        }

        for (var i = 0; i < found.Length; i++)
        {
            if (Math.Abs(found[i].Nm - StartNm - (i * StepNm)) > 0.01)
            {
                throw new FaultException(line, $"The wavelengths are not evenly spaced at {found[i].Nm} nm: a field is missing.");
            }
        }

        Spectrum = [.. found.Select(f => f.Column)];
    }

    private static int[]? Find(string[] fields, string[] names) =>
        names.Select(n => Array.IndexOf(fields, n)).Where(i => i >= 0).Select(i => new[] { i }).FirstOrDefault();

    private static int[]? All(string[] fields, params string[] names)
    {
        int[] columns = [.. names.Select(n => Array.IndexOf(fields, n))];
        return columns.Contains(-1) ? null : columns;
    }

    private static int Number(string digits) => int.Parse(digits, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(?:PC(?<n>\d{1,2})|(?<n>\d{1,2})CLR)_(?<i>\d{1,2})$")]
    private static partial Regex NInkField();

    [GeneratedRegex(@"^(?:SPECTRAL_?|R_?)?(?:NM_?|_)?(?<nm>\d{3,4}(?:\.\d{1,3})?)(?:NM)?$")]
    private static partial Regex SpectralField();
}
