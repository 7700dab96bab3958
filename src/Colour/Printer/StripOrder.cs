using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>What went wrong with the order of the readings.</summary>
public enum OrderFault
{
    /// <summary>The whole chart was read from its end: the sheet lay upside down.</summary>
    UpsideDown,

    /// <summary>A strip was read from its end.</summary>
    Reversed,

    /// <summary>Two strips stand in each other's place.</summary>
    Swapped,

    /// <summary>A strip was not read: from there on each place holds the readings of the next strip.</summary>
    LeftOut,

    /// <summary>A strip was read twice: after it each place holds the readings of the strip before.</summary>
    ReadTwice,
}

/// <summary>An order of readings that fits the chart far better than the one in the file.</summary>
/// <param name="Fault">What went wrong.</param>
/// <param name="Strip">The strip, 0 up; 0 for the whole chart.</param>
/// <param name="Other">The strip it stands in the place of, where two are swapped; else the same strip.</param>
/// <param name="AsRead">Mean difference from what was foretold, in the order of the file.</param>
/// <param name="Mended">The same in the better order.</param>
public sealed record OrderFinding(OrderFault Fault, int Strip, int Other, DeltaE00 AsRead, DeltaE00 Mended);

/// <summary>Finds strips that were read backwards, left out, twice or in each other's place, and sheets that lay upside down.</summary>
/// <remarks>
/// A strip is suspect when its patches lie far from what a model of the whole chart foretells. The model has learnt the
/// wrong strip too, but leaves each patch out when it foretells it, and a strip is a small part of a chart. The limits
/// are our own, without a source.
/// </remarks>
public static class StripOrder
{
    // A strip in order lies under 1; one out of order lies at 10 and more.
    private const double SuspectFrom = 3;

    // The other order must halve the difference at least.
    private const double MustHalve = 0.5;

    /// <summary>Looks for an order that fits better.</summary>
    /// <param name="chart">A chart whose patches are in the order of reading.</param>
    /// <param name="stripLength">Patches to a strip; the last strip may be shorter.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Empty where the order is right, or where nothing better was found.</returns>
    /// <exception cref="ArgumentException">As <see cref="PrinterModels.Fit"/>, or the length is below 2.</exception>
    public static IReadOnlyList<OrderFinding> Find(MeasurementSet chart, int stripLength, CancellationToken cancel = default)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(stripLength, 2);
        var (foretold, asRead) = Foretell(chart, cancel);
        if (asRead >= SuspectFrom)
        {
            var read = chart.Patches.Select(p => p.Lab).Reverse().ToArray();
            var turned = chart with { Patches = [.. chart.Patches.Select((p, i) => p with { Lab = read[i], Spectrum = null })] };
            var mended = Foretell(turned, cancel).Median;
            if (mended < MustHalve * asRead)
            {
                return [new(OrderFault.UpsideDown, 0, 0, new(asRead), new(mended))];
            }
        }

        var (found, suspects) = Strips([.. chart.Patches.Select(p => p.Lab).Chunk(stripLength)], [.. foretold.Chunk(stripLength)]);
        // Of many strips in the wrong place some fit another's by chance: a slip explains them all at once.
        return suspects > 0 && (found.Count == 0 || suspects > 2) && StripShift.Find(chart, stripLength, SuspectFrom, MustHalve, cancel) is { } slip ? [slip] : found;
    }

    private static (List<OrderFinding> Found, int Suspects) Strips(Lab[][] read, Lab[][] foretold)
    {
        var asRead = read.Select((r, s) => Mean(r, foretold[s])).ToArray();
        var suspects = Enumerable.Range(0, read.Length).Where(s => asRead[s] >= SuspectFrom).ToArray();
        var found = new List<OrderFinding>();
        foreach (var s in suspects)
        {
            var reversed = Mean([.. read[s].Reverse()], foretold[s]);
            if (reversed < MustHalve * asRead[s])
            {
                found.Add(new(OrderFault.Reversed, s, s, new(asRead[s]), new(reversed)));
                continue;
            }

            foreach (var other in suspects.Where(o => o > s && read[o].Length == read[s].Length))
            {
                var before = (asRead[s] + asRead[other]) / 2;
                var after = (Mean(read[other], foretold[s]) + Mean(read[s], foretold[other])) / 2;
                if (after < MustHalve * before)
                {
                    found.Add(new(OrderFault.Swapped, s, other, new(before), new(after)));
                }
            }
        }

        return (found, suspects.Length);
    }

    // What all other device values foretell of each patch in the order of reading, and the median difference from it.
    private static (Lab[] Foretold, double Median) Foretell(MeasurementSet chart, CancellationToken cancel)
    {
        var of = chart.Averaged().Zip(PrinterModels.Foretold([chart], null, cancel)).ToDictionary(p => string.Join(' ', p.First.Device), p => p.Second);
        Lab[] foretold = [.. chart.Patches.Select(p => of[string.Join(' ', p.Device)])];
        double[] away = [.. chart.Patches.Select((p, i) => CieDe2000.Between(p.Lab, foretold[i]).Value).Order()];
        return (foretold, away[away.Length / 2]);
    }

    private static double Mean(Lab[] read, Lab[] foretold) =>
        read.Zip(foretold).Average(p => CieDe2000.Between(p.First, p.Second).Value);
}
