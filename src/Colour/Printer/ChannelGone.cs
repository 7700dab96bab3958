using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>Finds the part of a chart in which a channel did not answer: nozzles out, cleaned again or not.</summary>
/// <remarks>
/// The rest of the chart is learnt, and tells of each patch of the part what it should be and what it would be without
/// the channel. Only a part that the second explains far better is called so: nothing that an instrument, a strip in the
/// wrong place or a weak model does looks like that. The limits are our own, without a source.
/// </remarks>
internal static class ChannelGone
{
    // Most patches that the channel should have coloured are off by this, dE00.
    private const double GoneFrom = 5;

    // What is foretold without the channel may leave this part of it.
    private const double MustHalve = 0.5;

    // A patch as good as bare of the channel does not show that it is gone.
    private const double Shows = 0.1;

    // What a chart in order leaves is far under this: from here on a stretch of patches is worth a second look.
    private const double Suspect = GoneFrom / 2;

    // One patch that is far off says no more than this of a stretch.
    private const double Most = 20;

    // A patch that neither tells must not lengthen the part.
    private const double Toll = 0.5;

    private const int FewestShowing = 6;
    private const int FewestToLearn = 40;
    private const int Rounds = 3;

    /// <summary>Looks for it.</summary>
    /// <param name="chart">Patches in the order of reading.</param>
    /// <param name="away">How far each patch is from what all others foretell.</param>
    /// <param name="cancel">Stops it.</param>
    public static CourseFinding? Find(MeasurementSet chart, double[] away, CancellationToken cancel) => InPart(chart, away, cancel) ?? FromTheFirst(chart);

    private static CourseFinding? InPart(MeasurementSet chart, double[] away, CancellationToken cancel)
    {
        // Learnt with what is wrong in it, the chart spreads half of its error over all patches: those above the mean stand out.
        var level = Math.Max(Suspect, away.Average());
        var (from, to, _) = Stretch([.. away.Select(a => Math.Min(a, Most) - level)]);
        if (to - from < FewestShowing)
        {
            return null;
        }

        // Where most of the chart is wrong, the part that stands out may be the one that is right.
        var n = away.Length;
        (int From, int To)[] parts = away.Average() < Suspect ? [(from, to)] : [(from, to), from >= n - to ? (0, from) : (to, n), (n / 2, n), (0, n / 2)];
        return parts.Select(p => Without(chart, p.From, p.To, cancel)).FirstOrDefault(f => f is not null);
    }

    // Learns all but a part, and says where the rest is better told without a channel; again with what that leaves, until it stays.
    private static CourseFinding? Without(MeasurementSet chart, int from, int to, CancellationToken cancel)
    {
        CourseFinding? found = null;
        for (var round = 0; round < Rounds; round++)
        {
            // Some way around it, so that nothing wrong is learnt; but enough must be left.
            var (n, margin) = (chart.Patches.Length, Math.Max(4, (to - from) / 10));
            var rest = chart with { Patches = [.. chart.Patches[..Math.Max(0, from - margin)], .. chart.Patches[Math.Min(n, to + margin)..]] };
            if (rest.Patches.Length < FewestToLearn || rest.Averaged().Length < FewestToLearn)
            {
                return found;
            }

            var model = PrinterModels.Fit([rest], null, cancel);
            var meant = Off(model, chart, -1);
            var (best, without, channel) = Enumerable.Range(0, chart.Channels)
                .Select(c => (Off: Off(model, chart, c), Channel: c))
                .Select(c => (Stretch([.. meant.Zip(c.Off, (m, w) => Math.Clamp(m - w, -Most, Most) - Toll)]), c.Off, c.Channel))
                .MaxBy(c => c.Item1.Sum);
            var next = Judged(chart, (best.From, best.To, channel), meant, without);
            if (next is null || (found is not null && next.From == found.From && next.To == found.To))
            {
                return next;
            }

            (found, from, to) = (next, next.From, next.To);
        }

        return found;
    }

    private static CourseFinding? Judged(MeasurementSet chart, (int From, int To, int Channel) part, double[] meant, double[] without)
    {
        int[] shows = [.. Enumerable.Range(part.From, part.To - part.From).Where(i => Math.Abs(chart.Patches[i].Device[part.Channel] - Bare(chart.Channels)) > Shows)];
        if (shows.Length < FewestShowing)
        {
            return null;
        }

        var size = shows.Average(i => meant[i]);
        return size >= GoneFrom && shows.Average(i => without[i]) < MustHalve * size
            ? new(CourseFault.ChannelGone, part.From, part.To, part.Channel, new(size)) : null;
    }

    // A channel that is alone on bare paper and leaves it bare, where no part of the chart says otherwise, was never there.
    private static CourseFinding? FromTheFirst(MeasurementSet chart)
    {
        var bare = Bare(chart.Channels);
        double Ink(Patch p, int c) => Math.Abs(p.Device[c] - bare);
        if (chart.Patches.FirstOrDefault(p => p.Device.All(d => d == bare))?.Lab is not { } paper)
        {
            return null;
        }

        foreach (var channel in Enumerable.Range(0, chart.Channels))
        {
            Patch[] alone = [.. chart.Patches.Where(p => Enumerable.Range(0, chart.Channels).All(c => c == channel ? Ink(p, c) > 0.5 : Ink(p, c) == 0))];
            if (alone.Length > 0 && alone.All(p => CieDe2000.Between(p.Lab, paper).Value < GoneFrom / 2)
                && chart.Patches.Any(p => CieDe2000.Between(p.Lab, paper).Value > Most))
            {
                var off = alone.Average(p => CieDe2000.Between(p.Lab, paper).Value);
                return new(CourseFault.ChannelGone, 0, chart.Patches.Length, channel, new(off));
            }
        }

        return null;
    }

    // The stretch whose sum is the largest.
    private static (int From, int To, double Sum) Stretch(double[] values)
    {
        var (best, sum, from) = ((From: 0, To: 0, Sum: 0.0), 0.0, 0);
        for (var i = 0; i < values.Length; i++)
        {
            (sum, from) = sum > 0 ? (sum + values[i], from) : (values[i], i);
            best = sum > best.Sum ? (from, i + 1, sum) : best;
        }

        return best;
    }

    // How far patches are off the model, with one channel taken as gone; with none below 0.
    private static double[] Off(ILearntPrinter model, MeasurementSet chart, int gone)
    {
        double[] device = [.. chart.Patches.SelectMany(p => p.Device.Select((v, c) => c != gone ? v : Bare(chart.Channels)))];
        var lab = new double[3 * chart.Patches.Length];
        model.Predict(device, lab);
        return [.. chart.Patches.Select((p, i) => CieDe2000.Between(p.Lab, new(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2])).Value)];
    }

    private static double Bare(int channels) => channels == 4 ? 0 : 1;
}
