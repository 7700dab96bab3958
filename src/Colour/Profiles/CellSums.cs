using System.Runtime.Intrinsics;

namespace Goodsheet.Colour.Profiles;

/// <summary>What the known values in one cell of a lattice ask of its corners, summed up before it goes into the whole matrix.</summary>
internal sealed class CellSums(int corners)
{
    private readonly int[] nodes = new int[corners];
    private readonly double[] values = new double[corners];
    private readonly double[] weights = new double[corners];
    private readonly double[] products = new double[corners * corners];
    private readonly double[] asked = new double[corners];

    /// <summary>Begins a cell.</summary>
    /// <param name="at">Its corners; 4, 8 or 16 of them, or 2.</param>
    /// <param name="all">What the nodes are now, all of them.</param>
    public void Begin(ReadOnlySpan<int> at, double[] all)
    {
        at.CopyTo(nodes);
        for (var i = 0; i < corners; i++)
        {
            values[i] = all[at[i]];
        }

        Array.Clear(products);
        Array.Clear(asked);
    }

    /// <summary>Adds a known value.</summary>
    /// <param name="ofCorners">How much each corner counts in it.</param>
    /// <param name="importance">How much it counts.</param>
    /// <param name="target">The value.</param>
    public void Add(ReadOnlySpan<float> ofCorners, double importance, double target)
    {
        var now = 0.0;
        for (var i = 0; i < corners; i++)
        {
            weights[i] = ofCorners[i];
            now += weights[i] * values[i];
        }

        var amount = importance * (target - now);
        for (var i = 0; i < corners; i++)
        {
            asked[i] += weights[i] * amount;
            AddScaled(importance * weights[i], products.AsSpan(i * corners, corners));
        }
    }

    /// <summary>Adds what was summed up to the whole.</summary>
    public void Give(NodeMatrix matrix, double[] residual)
    {
        matrix.Add(nodes, products);
        for (var i = 0; i < corners; i++)
        {
            residual[nodes[i]] += asked[i];
        }
    }

    private void AddScaled(double part, Span<double> row)
    {
        var i = 0;
        for (; i <= corners - 4; i += 4)
        {
            (Vector256.LoadUnsafe(ref row[0], (nuint)i) + (Vector256.LoadUnsafe(ref weights[0], (nuint)i) * part)).StoreUnsafe(ref row[0], (nuint)i);
        }

        for (; i < corners; i++)
        {
            row[i] += part * weights[i];
        }
    }
}
