using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Printer;

/// <summary>What a printing condition prints: device values to the colour on paper.</summary>
/// <remarks>Implementations are immutable after fitting and may be asked from several threads at once.</remarks>
public interface IPrinterModel
{
    /// <summary>How many device channels there are: 1 grey, 3 RGB, 4 CMYK.</summary>
    int Channels { get; }

    /// <summary>Predicts many colours at once: a batch is many times faster than one by one.</summary>
    /// <param name="device">Rows of <see cref="Channels"/> device values, each 0 to 1. RGB and grey: 0 is full ink,
    /// 1 is paper. CMYK: 0 is paper, 1 is full ink.</param>
    /// <param name="lab">Rows of L*, a*, b* (D50, 2 degrees, absolute: relative to the perfect diffuser, so that the
    /// paper is not at 100), to be filled.</param>
    /// <exception cref="ArgumentException">The two spans do not hold the same number of rows.</exception>
    void Predict(ReadOnlySpan<double> device, Span<double> lab);
}

/// <summary>A printer that was learnt, and knows how sure it is of each colour.</summary>
public interface ILearntPrinter : IPrinterModel
{
    /// <summary>How sure the model is of L*, a*, b* here: one standard deviation of the mean print, without noise.</summary>
    /// <param name="device">One device value a channel, each 0 to 1.</param>
    Lab StandardDeviation(ReadOnlySpan<double> device);

    /// <summary>The same as it printed on the day of one of the charts, rather than on any day.</summary>
    /// <param name="chart">The chart, 0 up, in the order they were given.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such chart.</exception>
    IPrinterModel OnDayOf(int chart);
}
