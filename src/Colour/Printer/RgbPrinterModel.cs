using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>A printer that is driven with RGB, as learnt from one or more charts.</summary>
/// <remarks>
/// Gaussian-process regression, Matérn 5/2 on monotone-warped channels and their maximum, a quadratic trend, a short
/// ridge kernel along the greys, and a smooth term per chart where charts of several days are merged.
/// </remarks>
public sealed class RgbPrinterModel : ILearntPrinter
{
    private readonly GaussianProcess process;

    internal RgbPrinterModel(GaussianProcess process, int charts) => (this.process, Charts) = (process, charts);

    /// <inheritdoc/>
    public int Channels => 3;

    /// <summary>How many charts it was learnt from.</summary>
    public int Charts { get; }

    /// <inheritdoc/>
    public void Predict(ReadOnlySpan<double> device, Span<double> lab) => process.Predict(device, lab);

    /// <inheritdoc/>
    public IPrinterModel OnDayOf(int chart)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(chart);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(chart, Charts);
        return new PrinterOnDay(process, Channels, chart);
    }

    /// <inheritdoc/>
    public Lab StandardDeviation(ReadOnlySpan<double> device) => process.StandardDeviation(device);

    internal static RgbPrinterModel Fit(IReadOnlyList<MeasurementSet> charts, IProgress<double>? progress, CancellationToken stop) =>
        new(GaussianProcess.Fit(new RgbForm(), TrainingData.Of(charts), progress, stop), charts.Count);
}
