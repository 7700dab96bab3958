namespace Goodsheet.Colour.Printer;

/// <summary>What the tables inside a printer's driver leave on the print: bends at their nodes, that no smooth model has.</summary>
/// <remarks>
/// A driver takes RGB to inks through curves (<see cref="DriverCurves"/>) and a table that is read between four nodes. Each node
/// errs by itself, and what it errs by spreads as the table is read: between the corners of tetrahedra. So two device values
/// share what their nodes share. The spacing of 16 levels was found in 2,390 patches of one matte paper, where it stands out
/// against all others tried, and holds on another chart and on gloss: docs/decisions/0400. On the greys the driver goes its own
/// way, and nothing is shared there: docs/decisions/0406.
/// </remarks>
internal static class DriverTables
{
    private const double Levels = 255;
    private const int TableStep = 16;
    private const double NodeVariance = 0.002;
    private const int TableNodes = (int)(Levels / TableStep) + 2;

    // Nodes that a device value lies between.
    private const int Corners = 4;

    /// <summary>The variance of it all at a device value.</summary>
    public static double Variance(ReadOnlySpan<double> device)
    {
        Span<Share> shares = stackalloc Share[Corners];
        Of(device, shares);
        var sum = 0.0;
        foreach (var share in shares)
        {
            sum += NodeVariance * share.Weight * share.Weight;
        }

        return sum;
    }

    private static void Of(ReadOnlySpan<double> device, Span<Share> shares)
    {
        Span<double> past = stackalloc double[3];
        Span<int> step = [TableNodes * TableNodes, TableNodes, 1];
        var corner = 0;
        for (var c = 0; c < 3; c++)
        {
            var table = Math.Clamp(device[c], 0, 1) * Levels / TableStep;
            var cell = (int)table;
            past[c] = table - cell;
            corner += cell * step[c];
        }

        // The tetrahedron: from the cell's corner along the channel that is farthest into the cell, then the next.
        past.Sort(step, (one, other) => other.CompareTo(one));
        for (var k = 0; k < Corners; k++)
        {
            shares[k] = new(corner, (k == 0 ? 1 : past[k - 1]) - (k == 3 ? 0 : past[k]));
            corner += k == 3 ? 0 : step[k];
        }
    }

    private readonly record struct Share(int Node, double Weight);

    /// <summary>The data that share each node.</summary>
    public sealed class Nodes
    {
        // Data of a node in their order: from[node] up to from[node + 1].
        private readonly int[] from = new int[(TableNodes * TableNodes * TableNodes) + 1];
        private readonly int[] data;
        private readonly double[] weights;

        /// <param name="device">The data: R, G, B, each 0 to 1.</param>
        /// <param name="apart">How much of it all each takes part in, 0 to 1.</param>
        public Nodes(double[][] device, double[] apart)
        {
            var shares = new Share[device.Length * Corners];
            for (var i = 0; i < device.Length; i++)
            {
                Of(device[i], shares.AsSpan(i * Corners, Corners));
            }

            foreach (var share in shares)
            {
                from[share.Node + 1]++;
            }

            for (var n = 1; n < from.Length; n++)
            {
                from[n] += from[n - 1];
            }

            (data, weights) = (new int[shares.Length], new double[shares.Length]);
            var filled = from[..^1];
            for (var s = 0; s < shares.Length; s++)
            {
                var at = filled[shares[s].Node]++;
                (data[at], weights[at]) = (s / Corners, shares[s].Weight * apart[s / Corners]);
            }
        }

        /// <summary>Adds the covariances with a device value to those of the first data.</summary>
        /// <param name="device">The device value.</param>
        /// <param name="apart">How much of it all it takes part in, 0 to 1.</param>
        /// <param name="row">A place for each datum.</param>
        /// <param name="count">How many data, the first ones.</param>
        public void Add(ReadOnlySpan<double> device, double apart, Span<double> row, int count)
        {
            Span<Share> shares = stackalloc Share[Corners];
            Of(device, shares);
            foreach (var share in shares)
            {
                var here = NodeVariance * share.Weight * apart;
                for (var k = here > 0 ? from[share.Node] : from[share.Node + 1]; k < from[share.Node + 1] && data[k] < count; k++)
                {
                    row[data[k]] += here * weights[k];
                }
            }
        }
    }
}
