namespace Goodsheet.Colour.Measurement;

/// <summary>Brings device values to 0 to 1, and undoes the rounding of a writer where it is beyond doubt.</summary>
internal static class DeviceScale
{
    // Every chart has its paper or a full ink, so that the largest value tells the scale.
    private static readonly double[] Tops = [1, 100, 255, 65535];

    public static void Apply(RawTable table, double[][] device, DeviceSpace space)
    {
        if (space == DeviceSpace.None)
        {
            return;
        }

        var negative = Array.FindIndex(device, d => d.Min() < 0);
        if (negative >= 0)
        {
            throw new FaultException(table.Rows[negative].Line, "A device value is below 0.");
        }

        var largest = device.Max(d => d.Max());
        var top = Tops.FirstOrDefault(t => largest <= t);
        if (top == 0)
        {
            throw new FaultException(table.Rows[Array.FindIndex(device, d => d.Max() > Tops[^1])].Line, $"A device value is above {Tops[^1]}.");
        }

        if (top != 1)
        {
            table.Note(ReadFindingKind.DeviceScale, largest == top
                ? $"Ink values are written from 0 to {top}."
                : $"Ink values reach {largest}; they were taken as written from 0 to {top}.");
        }

        if (top == 100 && AreCutLevels(device))
        {
            table.Note(ReadFindingKind.DeviceRounded, "Device values were cut when the file was written; they were put back to whole levels of 255.");
            Scale(device, v => Math.Round(v * 2.55) / 255);
        }
        else
        {
            Scale(device, v => v / top);
        }
    }

    // Percent with one or two decimals, each within its last decimal of a level k/255: chance would not do that
    // (1 in 20 for a value with two decimals), so it takes a dozen different values to be sure.
    private static bool AreCutLevels(double[][] device)
    {
        var values = device.SelectMany(d => d).Where(v => v != Math.Round(v)).Distinct().ToArray();
        var unit = values.All(v => IsWhole(v * 10)) ? 0.1 : values.All(v => IsWhole(v * 100)) ? 0.01 : 0.001;
        var all = device.SelectMany(d => d).Distinct();
        return values.Length >= 12 && all.All(v => Math.Abs((Math.Round(v * 2.55) / 2.55) - v) < unit);
    }

    private static bool IsWhole(double v) => Math.Abs(v - Math.Round(v)) < 1e-6;

    private static void Scale(double[][] device, Func<double, double> change)
    {
        foreach (var row in device)
        {
            for (var i = 0; i < row.Length; i++)
            {
                row[i] = change(row[i]);
            }
        }
    }
}
