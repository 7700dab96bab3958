using System.Runtime.Intrinsics;

namespace Goodsheet.Colour.Profiles;

/// <summary>What the known values in one cell of a lattice ask of its corners, summed up before it goes into the whole matrix.</summary>
internal sealed class CellSums(int corners)
{
    private readonly int[] nodes = new int[corners];
    private readonly double[] weights = new double[corners];
    private readonly double[] products = new double[corners * corners];

    /// <summary>Begins a cell.</summary>
    /// <param name="at">Its corners; 4, 8 or 16 of them, or 2.</param>
    public void Begin(ReadOnlySpan<int> at)
    {
        at.CopyTo(nodes);
        Array.Clear(products);
    }

    /// <summary>Adds a known value.</summary>
    /// <param name="ofCorners">How much each corner counts in it.</param>
    /// <param name="importance">How much it counts.</param>
    public void Add(ReadOnlySpan<float> ofCorners, double importance)
    {
        for (var i = 0; i < corners; i++)
        {
            weights[i] = ofCorners[i];
        }

        for (var i = 0; i < corners; i++)
        {
            AddScaled(importance * weights[i], products.AsSpan(i * corners, corners));
        }
    }

    /// <summary>Adds what was summed up to the whole.</summary>
    public void Give(NodeMatrix matrix) => matrix.Add(nodes, products);

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
