namespace Goodsheet.Colour.Icc;

/// <summary>A colour lookup table: 16-bit values on a grid (the CLUT of ICC.1). Immutable.</summary>
public sealed class Clut
{
    /// <summary>The most inputs and outputs of a table here.</summary>
    public const int MostChannels = 4;

    private readonly int[] grid;
    private readonly ushort[] nodes;

    /// <summary>A table of the given nodes.</summary>
    /// <param name="grid">How many nodes each input has, 2 to 255; one to four inputs.</param>
    /// <param name="outputs">How many outputs a node has, 1 to 4.</param>
    /// <param name="nodes">The values, 65535 meaning 1; the last input varies fastest, the outputs of a node lie side by
    /// side. They are copied.</param>
    /// <exception cref="ArgumentException">The sizes are out of range or do not agree.</exception>
    public Clut(IReadOnlyList<int> grid, int outputs, ReadOnlySpan<ushort> nodes)
    {
        ArgumentNullException.ThrowIfNull(grid);
        if (CountNodes(grid) is not { } count || outputs is < 1 or > MostChannels)
        {
            throw new ArgumentException(
                $"A table has 1 to {MostChannels} inputs of 2 to 255 nodes, 1 to {MostChannels} outputs and at most {IccLimits.Nodes} nodes.", nameof(grid));
        }

        if (nodes.Length != count * outputs)
        {
            throw new ArgumentException($"The grid has {count} nodes of {outputs} values, not {nodes.Length} values.", nameof(nodes));
        }

        this.grid = [.. grid];
        this.nodes = nodes.ToArray();
        Outputs = outputs;
    }

    /// <summary>How many inputs it has.</summary>
    public int Inputs => grid.Length;

    /// <summary>How many outputs it has.</summary>
    public int Outputs { get; }

    /// <summary>How many nodes each input has.</summary>
    public IReadOnlyList<int> Grid => grid;

    /// <summary>The values, 65535 meaning 1.</summary>
    public ReadOnlySpan<ushort> Nodes => nodes;

    /// <summary>How many nodes a grid has, or null when it is no grid within the limits.</summary>
    public static int? CountNodes(IReadOnlyList<int> grid)
    {
        ArgumentNullException.ThrowIfNull(grid);
        long count = 1;
        foreach (var points in grid)
        {
            if (points is < 2 or > 255 || (count *= points) > IccLimits.Nodes)
            {
                return null;
            }
        }

        return grid.Count is < 1 or > MostChannels ? null : (int)count;
    }

    /// <summary>The value at a point.</summary>
    /// <param name="point">One coordinate an input, clipped to 0 to 1.</param>
    /// <param name="how">How to interpolate.</param>
    /// <param name="value">Filled with one value an output, 0 to 1.</param>
    public void Evaluate(ReadOnlySpan<double> point, Interpolation how, Span<double> value)
    {
        Span<int> corner = stackalloc int[LatticeCell.MostCorners];
        Span<double> weight = stackalloc double[LatticeCell.MostCorners];
        var corners = LatticeCell.Find(point[..grid.Length], grid, how, corner, weight);
        value = value[..Outputs];
        value.Clear();
        for (var k = 0; k < corners; k++)
        {
            var node = nodes.AsSpan(corner[k] * Outputs, Outputs);
            for (var i = 0; i < value.Length; i++)
            {
                value[i] += weight[k] * node[i];
            }
        }

        for (var i = 0; i < value.Length; i++)
        {
            value[i] /= ushort.MaxValue;
        }
    }
}
