using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Printer;

/// <summary>Finds a strip that was left out or read twice: from there on every reading stands in a neighbour's place.</summary>
/// <remarks>
/// More than half of such a chart may be wrong, so it is learnt by halves: the first half as the file has it foretells a
/// slip in the second, the second half moved by a strip foretells one in the first.
/// </remarks>
internal static class StripShift
{
    private const int FewestStrips = 4;

    /// <summary>Looks for it.</summary>
    /// <param name="chart">Patches in the order of reading.</param>
    /// <param name="stripLength">Patches to a strip.</param>
    /// <param name="suspectFrom">Strips in order lie under this, dE00.</param>
    /// <param name="mustHalve">What part of the difference may be left in the better order.</param>
    /// <param name="cancel">Stops it.</param>
    public static OrderFinding? Find(MeasurementSet chart, int stripLength, double suspectFrom, double mustHalve, CancellationToken cancel)
    {
        Patch[][] strips = [.. chart.Patches.Chunk(stripLength)];
        var half = strips.Length / 2;
        if (strips.Length < FewestStrips || half * stripLength < PrinterModels.FewestPatches)
        {
            return null;
        }

        var before = Learn(chart, strips[..half], cancel);
        foreach (var shift in (int[])[1, -1])
        {
            Patch[][] moved = [.. Enumerable.Range(half, strips.Length - half).Where(s => s + shift < strips.Length).Select(s => Moved(strips, s, shift))];
            foreach (var (model, from, to) in ((IPrinterModel?, int, int)[])[(before, half, strips.Length), (Learn(chart, moved, cancel), 0, half)])
            {
                if (model is not null && Slip(model, strips, (from, to, shift), suspectFrom, mustHalve) is { } found)
                {
                    return found;
                }
            }
        }

        return null;
    }

    // From which strip on the readings fit the neighbour's place.
    private static OrderFinding? Slip(IPrinterModel model, Patch[][] strips, (int From, int To, int Shift) where, double suspectFrom, double mustHalve)
    {
        var (from, to, shift) = where;
        var asRead = new double[to];
        var moved = new double[to];
        for (var s = from; s < to; s++)
        {
            asRead[s] = Off(model, strips[s]);
            moved[s] = s + shift >= 0 && s + shift < strips.Length ? Off(model, Moved(strips, s, shift)) : double.NaN;
        }

        bool Known(int s) => !double.IsNaN(moved[s]);
        var slip = Enumerable.Range(from, to - from).Where(Known).MinBy(k => Enumerable.Range(from, to - from).Where(Known).Sum(s => s < k ? asRead[s] : moved[s]));
        var after = Enumerable.Range(slip, to - slip).Where(Known).ToArray();
        if (after.Length == 0 || (slip > from && asRead[from..slip].Average() >= suspectFrom))
        {
            return null;
        }

        var (off, mended) = (after.Average(s => asRead[s]), after.Average(s => moved[s]));
        return off >= suspectFrom && mended < mustHalve * off
            ? shift > 0 ? new(OrderFault.LeftOut, slip, slip, new(off), new(mended)) : new(OrderFault.ReadTwice, slip - 1, slip - 1, new(off), new(mended))
            : null;
    }

    // What stands at a strip, as readings of the neighbour's device values.
    private static Patch[] Moved(Patch[][] strips, int s, int shift) =>
        [.. strips[s].Zip(strips[s + shift], (read, place) => place with { Lab = read.Lab, Spectrum = null })];

    private static IPrinterModel? Learn(MeasurementSet chart, Patch[][] strips, CancellationToken cancel)
    {
        var part = chart with { Patches = [.. strips.SelectMany(s => s).Select(p => p with { Spectrum = null })] };
        return part.Averaged().Length < PrinterModels.FewestPatches ? null : PrinterModels.Fit([part], null, cancel);
    }

    private static double Off(IPrinterModel model, Patch[] patches)
    {
        var lab = new double[3 * patches.Length];
        model.Predict([.. patches.SelectMany(p => p.Device)], lab);
        return patches.Select((p, i) => CieDe2000.Between(p.Lab, new Lab(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2])).Value).Average();
    }
}
