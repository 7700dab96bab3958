using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>What a model learns from: distinct device values, their mean colours, readings behind each, chart of each.</summary>
/// <param name="Device">Device values, each 0 to 1.</param>
/// <param name="Lab">The mean colour of each.</param>
/// <param name="Count">Readings behind each, 1 or more.</param>
/// <param name="Chart">Which chart each comes from, 0 up; all 0 where there is one.</param>
internal sealed record TrainingData(double[][] Device, Lab[] Lab, int[] Count, int[] Chart)
{
    public int Length => Device.Length;

    public int Charts => Chart.Max() + 1;

    public static TrainingData Of(IReadOnlyList<MeasurementSet> charts)
    {
        var rows = charts.SelectMany((c, i) => c.Averaged().Select(p => (Patch: p, Chart: i))).ToArray();
        return new(
            [.. rows.Select(r => r.Patch.Device.ToArray())],
            [.. rows.Select(r => r.Patch.Lab)],
            [.. rows.Select(r => r.Patch.Count)],
            [.. rows.Select(r => r.Chart)]);
    }

    public TrainingData Only(IEnumerable<int> rows)
    {
        int[] keep = [.. rows];
        return new([.. keep.Select(i => Device[i])], [.. keep.Select(i => Lab[i])], [.. keep.Select(i => Count[i])], [.. keep.Select(i => Chart[i])]);
    }
}
