using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>Learns a printing condition from charts of it.</summary>
public static class PrinterModels
{
    /// <summary>The fewest distinct patches to learn from, by channels.</summary>
    public const int FewestPatches = 8;

    /// <summary>Learns from one or more charts of the same condition.</summary>
    /// <param name="charts">One or more, all with the same device space: grey, RGB or CMYK.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="cancel">Stops it.</param>
    /// <exception cref="ArgumentException">There is no chart, they differ in device space, the space is none of the
    /// three, or there are too few patches.</exception>
    public static ILearntPrinter Fit(IReadOnlyList<MeasurementSet> charts, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        var data = DataOf(charts);
        return charts[0].Channels == 3 ? RgbPrinterModel.Fit(charts, progress, cancel)
            : new ChannelModel(GaussianProcess.Fit(FormOf(charts[0].Channels), data, progress, cancel), charts[0].Channels, charts.Count);
    }

    /// <summary>Learns a new paper from a small chart on it and from charts of another paper on the same printer.</summary>
    /// <param name="charts">The new paper: one or more charts.</param>
    /// <param name="known">The other paper, known well.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="cancel">Stops it.</param>
    /// <remarks>From about 50 patches on the other paper adds little; below, it halves the error. Each paper keeps its own
    /// trend, mean and spread: what carries over is the shape of what is left (see docs/decisions/0085).</remarks>
    /// <exception cref="ArgumentException">As <see cref="Fit"/>; or the papers' charts differ in device space.</exception>
    public static ILearntPrinter FitFromKnown(
        IReadOnlyList<MeasurementSet> charts, IReadOnlyList<MeasurementSet> known, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        _ = DataOf([.. charts, .. known]);
        _ = DataOf(charts);
        var channels = charts[0].Channels;
        return new ChannelModel(GaussianProcess.Fit(FormOf(channels), TrainingData.Of(charts, known), progress, cancel), channels, charts.Count);
    }

    /// <summary>How far each distinct patch lies from what all others foretell of it.</summary>
    /// <returns>One difference a distinct patch, in the order of <see cref="MeasurementSet.Averaged"/> chart by chart.</returns>
    /// <exception cref="ArgumentException">As <see cref="Fit"/>.</exception>
    public static IReadOnlyList<DeltaE00> LeaveOneOut(IReadOnlyList<MeasurementSet> charts, CancellationToken cancel = default) =>
        [.. DataOf(charts).Lab.Zip(Foretold(charts, null, cancel), CieDe2000.Between)];

    /// <summary>What all other patches foretell of each distinct patch.</summary>
    /// <param name="charts">One or more charts of one condition.</param>
    /// <param name="known">Charts of another paper that help, as in <see cref="FitFromKnown"/>; none otherwise.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>One colour a distinct patch, in the order of <see cref="MeasurementSet.Averaged"/> chart by chart.</returns>
    /// <exception cref="ArgumentException">As <see cref="Fit"/>.</exception>
    public static IReadOnlyList<Lab> Foretold(
        IReadOnlyList<MeasurementSet> charts, IReadOnlyList<MeasurementSet>? known = null, CancellationToken cancel = default)
    {
        var data = DataOf(charts);
        var process = known is null ? Learn(charts, cancel) : GaussianProcess.Fit(FormOf(charts[0].Channels), TrainingData.Of(charts, known), null, cancel);
        return [.. process.LeaveOneOutResiduals(cancel).Take(data.Length).Select((r, i) => new Lab(data.Lab[i].L - r.L, data.Lab[i].A - r.A, data.Lab[i].B - r.B))];
    }

    /// <summary>Learns RGB charts by a plain smooth surface, so that a paper's volume compares with volumes stated elsewhere.</summary>
    /// <exception cref="ArgumentException">As <see cref="Fit"/>; or the charts are not RGB.</exception>
    internal static IPrinterModel FitPlainly(IReadOnlyList<MeasurementSet> charts, CancellationToken cancel) =>
        new ChannelModel(GaussianProcess.Fit(new PlainForm(), DataOf(charts), null, cancel), 3, charts.Count);

    internal static GaussianProcess Learn(IReadOnlyList<MeasurementSet> charts, CancellationToken cancel) =>
        GaussianProcess.Fit(FormOf(charts.Count > 0 ? charts[0].Channels : 0), DataOf(charts), null, cancel);

    internal static KernelForm FormOf(int channels) => channels switch
    {
        1 => new GreyForm(),
        3 => new RgbForm(),
        4 => new CmykForm(),
        _ => throw new ArgumentException($"Printers of {channels} channels are not learnt.", nameof(channels)),
    };

    internal static TrainingData DataOf(IReadOnlyList<MeasurementSet> charts)
    {
        if (charts.Count == 0 || charts.Any(c => c.Space != charts[0].Space || c.Channels != charts[0].Channels))
        {
            throw new ArgumentException("One or more charts of one device space are needed.", nameof(charts));
        }

        _ = FormOf(charts[0].Channels);
        var data = TrainingData.Of(charts);
        return data.Length >= FewestPatches ? data
            : throw new ArgumentException($"{data.Length} distinct patches are too few: at least {FewestPatches}.", nameof(charts));
    }

    private sealed class ChannelModel(GaussianProcess process, int channels, int charts) : ILearntPrinter
    {
        public int Channels => channels;

        public void Predict(ReadOnlySpan<double> device, Span<double> lab) => process.Predict(device, lab);

        public Lab StandardDeviation(ReadOnlySpan<double> device) => process.StandardDeviation(device);

        public IPrinterModel OnDayOf(int chart)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(chart);
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(chart, charts);
            return new PrinterOnDay(process, channels, chart);
        }
    }
}
