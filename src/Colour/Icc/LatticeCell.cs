namespace Goodsheet.Colour.Icc;

/// <summary>How a value between the nodes of a colour table is found.</summary>
public enum Interpolation
{
    /// <summary>Between four corners of the cell for three channels; a fourth channel, the first, is straight between
    /// two such values. What engines do with device values.</summary>
    Tetrahedral,

    /// <summary>Between all corners of the cell. What the reference engine does from Lab to device.</summary>
    Multilinear,
}

/// <summary>Which nodes of a grid surround a point, and how much each counts: the weights of the table's value.</summary>
/// <remarks>
/// A table's value is the sum of its nodes times these weights, and both the engines that use a profile and the
/// regression that makes one stand on them. Tetrahedral: J. M. Kasson, S. I. Nin, W. Plouffe, J. L. Hafner,
/// "Performing color space conversions with three-dimensional linear interpolation", J. Electronic Imaging 4(3),
/// 226 (1995), from memory; the order of channels for four inputs as Little CMS 2 has it, which is our test.
/// </remarks>
public static class LatticeCell
{
    /// <summary>The most corners a point can have, for four channels and multilinear.</summary>
    public const int MostCorners = 16;

    /// <summary>Finds the corners.</summary>
    /// <param name="point">One to four coordinates; clipped to 0 to 1.</param>
    /// <param name="grid">How many nodes each channel has, 2 or more. The last channel varies fastest.</param>
    /// <param name="how">Tetrahedral needs three or four channels; fewer are straight in any case.</param>
    /// <param name="nodes">Filled with the node numbers; room for <see cref="MostCorners"/>.</param>
    /// <param name="weights">Filled with the weights, none negative, their sum 1; room as above.</param>
    /// <returns>How many corners there are.</returns>
    public static int Find(ReadOnlySpan<double> point, ReadOnlySpan<int> grid, Interpolation how, Span<int> nodes, Span<double> weights)
    {
        Span<double> fraction = stackalloc double[4];
        Span<int> stride = stackalloc int[4];
        var count = point.Length;
        if (count is < 1 or > 4 || grid.Length != count)
        {
            throw new ArgumentException("A table has one to four channels, each with its own grid.", nameof(point));
        }

        var (origin, step) = (0, 1);
        for (var i = count - 1; i >= 0; i--)
        {
            var position = (double.IsNaN(point[i]) ? 0 : Math.Clamp(point[i], 0, 1)) * (grid[i] - 1);
            var below = Math.Min((int)position, grid[i] - 2);
            fraction[i] = position - below;
            stride[i] = step;
            origin += below * step;
            step *= grid[i];
        }

        (nodes[0], weights[0]) = (origin, 1);
        if (count < 3 || how == Interpolation.Multilinear)
        {
            return Split(fraction[..count], stride[..count], nodes, weights, 1);
        }

        var found = Tetrahedron(fraction[(count - 3)..count], stride[(count - 3)..count], nodes, weights);
        return count == 3 ? found : Split(fraction[..1], stride[..1], nodes, weights, found);
    }

    // Walks from the near corner to the far one, along the channel with the largest fraction first.
    private static int Tetrahedron(ReadOnlySpan<double> fraction, ReadOnlySpan<int> stride, Span<int> nodes, Span<double> weights)
    {
        var (first, second, third) = (0, 1, 2);
        if (fraction[first] < fraction[second])
        {
            (first, second) = (second, first);
        }

        if (fraction[second] < fraction[third])
        {
            (second, third) = (third, second);
        }

        if (fraction[first] < fraction[second])
        {
            (first, second) = (second, first);
        }

        nodes[1] = nodes[0] + stride[first];
        nodes[2] = nodes[1] + stride[second];
        nodes[3] = nodes[2] + stride[third];
        weights[0] = 1 - fraction[first];
        weights[1] = fraction[first] - fraction[second];
        weights[2] = fraction[second] - fraction[third];
        weights[3] = fraction[third];
        return 4;
    }

    private static int Split(ReadOnlySpan<double> fraction, ReadOnlySpan<int> stride, Span<int> nodes, Span<double> weights, int found)
    {
        for (var i = 0; i < fraction.Length; i++, found *= 2)
        {
            for (var k = 0; k < found; k++)
            {
                nodes[found + k] = nodes[k] + stride[i];
                weights[found + k] = weights[k] * fraction[i];
                weights[k] *= 1 - fraction[i];
            }
        }

        return found;
    }
}
