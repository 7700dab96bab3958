using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>What went wrong in the course of a chart, from its first patch to its last.</summary>
public enum CourseFault
{
    /// <summary>Readings and device values have nothing to do with each other: the reference of another chart.</summary>
    WrongChart,

    /// <summary>A channel did not answer in a part of the chart: nozzles out, an empty ink.</summary>
    ChannelGone,

    /// <summary>The readings move away evenly: an instrument that warms up, ink that was still drying.</summary>
    Drift,
}

/// <summary>Something that went wrong in the course of a chart.</summary>
/// <param name="Fault">What.</param>
/// <param name="From">The patch it begins with, in the order of the chart; 0 where it is about all.</param>
/// <param name="To">The patch after the last that it is about; the number of patches where it goes on to the end.</param>
/// <param name="Channel">The channel that is gone; 0 otherwise.</param>
/// <param name="Size">How far the patches are off; of a drift, how far the last is from the first.</param>
public sealed record CourseFinding(CourseFault Fault, int From, int To, int Channel, DeltaE00 Size);

/// <summary>Looks along the order of reading for what no single patch shows.</summary>
/// <remarks>The limits are our own, without a source.</remarks>
public static class ReadingCourse
{
    // A chart in order lies under 1; one that belongs to other device values lies near the spread of all colours.
    private const double WrongFrom = 12;

    // A trend must be this many of its own standard errors, and be worth the paper.
    private const double SureFrom = 6;
    private const double DriftFrom = 0.6;

    /// <summary>Looks for it.</summary>
    /// <param name="chart">A chart of grey, RGB or CMYK whose patches are in the order of reading.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>One finding at most: with one of them, the others cannot be told.</returns>
    /// <exception cref="ArgumentException">As <see cref="PrinterModels.Fit"/>.</exception>
    public static CourseFinding? Find(MeasurementSet chart, CancellationToken cancel = default)
    {
        var of = chart.Averaged().Zip(PrinterModels.Foretold([chart], null, cancel)).ToDictionary(p => string.Join(' ', p.First.Device), p => p.Second);
        Lab[] foretold = [.. chart.Patches.Select(p => of[string.Join(' ', p.Device)])];
        double[] away = [.. chart.Patches.Select((p, i) => CieDe2000.Between(p.Lab, foretold[i]).Value)];
        return ChannelGone.Find(chart, away, cancel) ?? Wrong(away) ?? Trend(chart, foretold);
    }

    private static CourseFinding? Wrong(double[] away)
    {
        var median = away.Order().ElementAt(away.Length / 2);
        return median >= WrongFrom ? new(CourseFault.WrongChart, 0, away.Length, 0, new(median)) : null;
    }

    // A straight line through what is left, along the order: with mixed patches the model cannot have learnt it.
    private static CourseFinding? Trend(MeasurementSet chart, Lab[] foretold)
    {
        Lab[] left = [.. chart.Patches.Select((p, i) => new Lab(p.Lab.L - foretold[i].L, p.Lab.A - foretold[i].A, p.Lab.B - foretold[i].B))];
        var (l, a, b) = (Slope([.. left.Select(x => x.L)]), Slope([.. left.Select(x => x.A)]), Slope([.. left.Select(x => x.B)]));
        var sure = Math.Max(Math.Abs(l.Sure), Math.Max(Math.Abs(a.Sure), Math.Abs(b.Sure)));
        // As on a middle grey, where a dE00 is nearest to its axes.
        var size = CieDe2000.Between(new(50, 0, 0), new(50 + l.Run, a.Run, b.Run));
        return sure >= SureFrom && size.Value >= DriftFrom ? new(CourseFault.Drift, 0, left.Length, 0, size) : null;
    }

    // The run from the first to the last, with misreads cut at four robust deviations, and how many errors it is.
    private static (double Run, double Sure) Slope(double[] values)
    {
        var middle = values.Order().ElementAt(values.Length / 2);
        var most = 4 * 1.4826 * Math.Max(1e-6, values.Select(v => Math.Abs(v - middle)).Order().ElementAt(values.Length / 2));
        var (n, sxy, sxx, syy) = (values.Length, 0.0, 0.0, 0.0);
        double[] y = [.. values.Select(v => Math.Clamp(v - middle, -most, most))];
        var mean = y.Average();
        for (var i = 0; i < n; i++)
        {
            var x = (i / (n - 1.0)) - 0.5;
            (sxy, sxx, syy) = (sxy + (x * (y[i] - mean)), sxx + (x * x), syy + ((y[i] - mean) * (y[i] - mean)));
        }

        var run = sxy / sxx;
        var error = Math.Sqrt(Math.Max(1e-12, (syy - (run * sxy)) / (n - 2) / sxx));
        return (run, run / error);
    }
}
