using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Charts;

/// <summary>Lays patches on sheets in an order that tells itself: neighbours differ, and no strip looks like another or like itself backwards.</summary>
public static class ChartOrder
{
    // In warped device space, whose cube has sides of 1: what an instrument on a strip tells apart safely.
    private const double NeighboursDiffer = 0.25;

    // The mean over a strip, against itself backwards and against each other strip.
    private const double StripsDiffer = 0.25;

    private const int Attempts = 20;

    /// <summary>Places patches on sheets.</summary>
    /// <param name="space">What the values mean.</param>
    /// <param name="devices">Device values of all patches.</param>
    /// <param name="sheet">How each sheet is laid out.</param>
    /// <param name="seed">The same seed gives the same order.</param>
    /// <remarks>A grey chart of few levels cannot keep all neighbours apart: there it does what it can.</remarks>
    /// <exception cref="ArgumentException">There is no patch, or the sheet is not usable.</exception>
    public static Chart Lay(DeviceSpace space, IReadOnlyList<double[]> devices, ChartSheet sheet, int seed)
    {
        if (devices.Count == 0 || !sheet.IsUsable)
        {
            throw new ArgumentException("A chart needs patches, and a sheet on which a strip of four fits.", nameof(sheet));
        }

        var inks = space is DeviceSpace.Cmyk;
        var (best, fewest) = (Array.Empty<double[]>(), int.MaxValue);
        for (var attempt = 0; attempt < Attempts && fewest > 0; attempt++)
        {
            var order = Shuffled(devices, sheet.PatchesInStrip, inks, new Random(seed + attempt));
            var alike = Alike(order, sheet.PatchesInStrip, inks);
            (best, fewest) = alike < fewest ? (order, alike) : (best, fewest);
        }

        return new(
            space, sheet,
            [.. best.Select((d, i) => new ChartPatch(Chart.PlaceOf(i / sheet.PatchesInStrip, i % sheet.PatchesInStrip), [.. d]))], seed);
    }

    private static double[][] Shuffled(IReadOnlyList<double[]> devices, int strip, bool inks, Random random)
    {
        double[][] order = [.. devices];
        random.Shuffle(order);
        for (var i = 1; i < order.Length; i++)
        {
            // Swapped with one that suits both places better, as long as there is one.
            for (var tries = 0; tries < 40 && Bad(order, i, strip, inks) > 0; tries++)
            {
                var other = random.Next(order.Length);
                var before = Bad(order, i, strip, inks) + Bad(order, i + 1, strip, inks) + Bad(order, other, strip, inks) + Bad(order, other + 1, strip, inks);
                (order[i], order[other]) = (order[other], order[i]);
                var after = Bad(order, i, strip, inks) + Bad(order, i + 1, strip, inks) + Bad(order, other, strip, inks) + Bad(order, other + 1, strip, inks);
                if (after >= before)
                {
                    (order[i], order[other]) = (order[other], order[i]);
                }
            }
        }

        return order;
    }

    // How far a patch and the one before it in the strip fall short of differing.
    private static double Bad(double[][] order, int i, int strip, bool inks) =>
        i <= 0 || i >= order.Length || i % strip == 0 ? 0 : Math.Max(0, NeighboursDiffer - FarthestPoint.Between(order[i - 1], order[i], inks));

    private static int Alike(double[][] order, int strip, bool inks)
    {
        var strips = order.Chunk(strip).Where(s => s.Length > 1).ToArray();
        var alike = 0;
        for (var s = 0; s < strips.Length; s++)
        {
            alike += Mean(strips[s], [.. strips[s].Reverse()], inks) < StripsDiffer ? 1 : 0;
            for (var other = s + 1; other < strips.Length; other++)
            {
                alike += Mean(strips[s], strips[other], inks) < StripsDiffer ? 1 : 0;
            }
        }

        return alike;
    }

    private static double Mean(double[][] one, double[][] other, bool inks) =>
        one.Zip(other, (a, b) => FarthestPoint.Between(a, b, inks)).Average();
}
