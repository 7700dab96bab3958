using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>What a model learns from: distinct device values, their mean colours, readings behind each, chart of each.</summary>
/// <param name="Device">Device values, each 0 to 1.</param>
/// <param name="Lab">The mean colour of each.</param>
/// <param name="Count">Readings behind each, 1 or more.</param>
/// <param name="Chart">Which chart each comes from, 0 up; all 0 where there is one.</param>
/// <param name="Paper">Which paper each is printed on: 0 is the one that is asked for, 1 one that is known well.</param>
internal sealed record TrainingData(double[][] Device, Lab[] Lab, int[] Count, int[] Chart, int[] Paper)
{
    public int Length => Device.Length;

    public int Charts => Chart.Max() + 1;

    public int Papers => Paper.Max() + 1;

    public static TrainingData Of(IReadOnlyList<MeasurementSet> charts, IReadOnlyList<MeasurementSet>? ofKnownPaper = null)
    {
        if (ofKnownPaper is not null)
        {
            // One chart of each paper tells nothing of days; with more, no day is shared.
            var (mine, known) = (Of(charts), Of(ofKnownPaper));
            var first = mine.Charts == 1 && known.Charts == 1 ? 0 : mine.Charts;
            return new(
                [.. mine.Device, .. known.Device], [.. mine.Lab, .. known.Lab], [.. mine.Count, .. known.Count],
                [.. mine.Chart, .. known.Chart.Select(c => c + first)], [.. mine.Paper, .. known.Paper.Select(_ => 1)]);
        }

        var rows = charts.SelectMany((c, i) => c.Averaged().Select(p => (Patch: p, Chart: i))).ToArray();
        return new(
            [.. rows.Select(r => r.Patch.Device.ToArray())],
            [.. rows.Select(r => r.Patch.Lab)],
            [.. rows.Select(r => r.Patch.Count)],
            [.. rows.Select(r => r.Chart)],
            new int[rows.Length]);
    }

    public TrainingData Only(IEnumerable<int> rows)
    {
        int[] keep = [.. rows];
        return new([.. keep.Select(i => Device[i])], [.. keep.Select(i => Lab[i])], [.. keep.Select(i => Count[i])], [.. keep.Select(i => Chart[i])], [.. keep.Select(i => Paper[i])]);
    }
}
