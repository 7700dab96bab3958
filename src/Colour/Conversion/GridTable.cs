namespace Goodsheet.Colour.Conversion;

/// <summary>A whole conversion baked into one table from RGB, for the fast kernel: proofs on screen, maps, thumbnails.</summary>
/// <remarks>Between its nodes it is as near as the nodes are dense; a print-ready file goes through <see cref="PixelRows"/>.</remarks>
public sealed class GridTable
{
    /// <summary>How many codes a node takes: three outputs and one to spare, so that a node is one load. Of 16 bits, as in profiles: 33 nodes a side stay near the core.</summary>
    internal const int Stride = 4;

    private GridTable(int points, ushort[] nodes) => (Points, Nodes) = (points, nodes);

    /// <summary>Nodes along each side.</summary>
    public int Points { get; }

    internal ushort[] Nodes { get; }

    /// <summary>Bakes a conversion of three channels in and three out.</summary>
    /// <param name="points">Nodes along each side, 2 to 65.</param>
    /// <param name="map">Rows of three values of 0 to 1 in, rows of three out.</param>
    /// <exception cref="ArgumentOutOfRangeException">The points are out of range.</exception>
    public static GridTable Bake(int points, Action<double[], double[]> map)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, 65);
        ArgumentNullException.ThrowIfNull(map);
        var nodes = new ushort[((points * points * points) + 1) * Stride];
        Parallel.For(0, points, r =>
        {
            var from = new double[points * points * 3];
            var to = new double[from.Length];
            for (var i = 0; i < points * points; i++)
            {
                (from[3 * i], from[(3 * i) + 1], from[(3 * i) + 2]) =
                    (r / (points - 1.0), i / points / (points - 1.0), i % points / (points - 1.0));
            }

            map(from, to);
            for (var i = 0; i < points * points; i++)
            {
                for (var k = 0; k < 3; k++)
                {
                    nodes[(((r * points * points) + i) * Stride) + k] = (ushort)((Math.Clamp(to[(3 * i) + k], 0, 1) * ushort.MaxValue) + 0.5);
                }
            }
        });
        return new(points, nodes);
    }

    /// <summary>Bakes a transform of three channels in and three out.</summary>
    /// <exception cref="ArgumentException">The transform has other channels.</exception>
    public static GridTable Bake(int points, ColourTransform transform)
    {
        ArgumentNullException.ThrowIfNull(transform);
        return transform is { Inputs: 3, Outputs: 3 }
            ? Bake(points, (from, to) => transform.Apply(from, to))
            : throw new ArgumentException("The kernel takes three channels to three.", nameof(transform));
    }
}
