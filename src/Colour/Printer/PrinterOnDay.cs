namespace Goodsheet.Colour.Printer;

/// <summary>A printer as it printed on the day of one chart.</summary>
internal sealed class PrinterOnDay(GaussianProcess process, int channels, int chart) : IPrinterModel
{
    public int Channels => channels;

    public void Predict(ReadOnlySpan<double> device, Span<double> lab) => process.Predict(device, lab, chart);
}
