using System.Numerics;
using Goodsheet.Colour.Numerics;

namespace Goodsheet.Colour.Profiles;

/// <summary>The normal equations of a lattice regression: symmetric, and each node has to do only with those around it.</summary>
/// <remarks>
/// Kept as one row of factors for each way from a node to a later one: a product with a vector then runs straight through
/// memory, several times as fast as from sample to sample.
/// </remarks>
internal sealed class NodeMatrix
{
    private readonly int count;
    private readonly int[] ways;         // how far on the other node is
    private readonly int[] wayOf;        // and back from that
    private readonly double[][] factors; // a row a way, by the earlier node
    private readonly double[] diagonal;

    /// <param name="grid">Nodes along each channel.</param>
    /// <param name="stiffness">How strongly second differences along each channel are resisted.</param>
    public NodeMatrix(int[] grid, double stiffness)
    {
        count = grid.Aggregate(1, (all, n) => all * n);
        diagonal = new double[count];
        var strides = new int[grid.Length];
        for (int c = grid.Length - 1, stride = 1; c >= 0; stride *= grid[c], c--)
        {
            strides[c] = stride;
        }

        ways = [.. Ways(strides).Where(w => w > 0).Distinct().Order()];
        wayOf = new int[ways[^1] + 1];
        for (var w = 0; w < ways.Length; w++)
        {
            wayOf[ways[w]] = w;
        }

        factors = [.. ways.Select(_ => new double[count])];
        for (var c = 0; c < grid.Length; c++)
        {
            Stiffen(strides[c], grid[c], stiffness);
        }
    }

    /// <summary>Adds what known values ask of the nodes around them.</summary>
    /// <param name="nodes">The nodes.</param>
    /// <param name="products">For each two of them the sum, over the values, of how much both count.</param>
    public void Add(ReadOnlySpan<int> nodes, ReadOnlySpan<double> products)
    {
        for (var i = 0; i < nodes.Length; i++)
        {
            diagonal[nodes[i]] += products[(i * nodes.Length) + i];
            for (var j = 0; j < i; j++)
            {
                var way = nodes[i] - nodes[j];
                factors[wayOf[Math.Abs(way)]][way > 0 ? nodes[j] : nodes[i]] += products[(i * nodes.Length) + j];
            }
        }
    }

    /// <summary>Solves by conjugate gradients, from nought.</summary>
    /// <param name="right">The right side; used up.</param>
    /// <param name="pull">How strongly each node is held to where it is.</param>
    /// <param name="mostSteps">When to stop at the latest.</param>
    /// <param name="enough">What part of the right side may be left.</param>
    public double[] Solve(double[] right, double[] pull, int mostSteps, double enough)
    {
        double[] held = [.. diagonal.Zip(pull, (d, p) => d + p)];
        var (solution, direction, product) = (new double[count], (double[])right.Clone(), new double[count]);
        var energy = Simd.Dot(right, right);
        var goal = energy * enough * enough;
        for (var k = 0; k < mostSteps && energy > goal && energy > 0; k++)
        {
            Multiply(held, direction, product);
            var along = energy / Simd.Dot(direction, product);
            Simd.AddScaled(solution, along, direction);
            Simd.AddScaled(right, -along, product);

            var next = Simd.Dot(right, right);
            var turn = next / energy;
            energy = next;
            for (var i = 0; i < count; i++)
            {
                direction[i] = right[i] + (turn * direction[i]);
            }
        }

        return solution;
    }

    // To every neighbour, and two along each channel for the bends.
    private static IEnumerable<int> Ways(int[] strides)
    {
        IEnumerable<int> ways = [0];
        foreach (var stride in strides)
        {
            ways = [.. ways.SelectMany(w => (int[])[w - stride, w, w + stride])];
        }

        return ways.Concat(strides.Select(s => 2 * s));
    }

    // The square of second differences along one channel: 1, -2, 1 times itself.
    private void Stiffen(int stride, int points, double stiffness)
    {
        if (points < 3)
        {
            return;
        }

        var (one, two) = (factors[wayOf[stride]], factors[wayOf[2 * stride]]);
        for (var i = 0; i < count; i++)
        {
            var along = i / stride % points;
            if (along > 0 && along < points - 1)
            {
                diagonal[i - stride] += stiffness;
                diagonal[i] += 4 * stiffness;
                diagonal[i + stride] += stiffness;
                one[i - stride] -= 2 * stiffness;
                one[i] -= 2 * stiffness;
                two[i - stride] += stiffness;
            }
        }
    }

    private void Multiply(double[] held, double[] vector, double[] product)
    {
        for (var i = 0; i < count; i++)
        {
            product[i] = held[i] * vector[i];
        }

        for (var w = 0; w < ways.Length; w++)
        {
            var way = ways[w];
            var factor = factors[w].AsSpan(0, count - way);
            Take(factor, vector.AsSpan(way), product);
            Take(factor, vector, product.AsSpan(way));
        }
    }

    // The products of two rows, added to a third.
    private static void Take(ReadOnlySpan<double> factor, ReadOnlySpan<double> vector, Span<double> product)
    {
        var f = Simd.Vectors(factor);
        var v = Simd.Vectors(vector[..factor.Length]);
        var p = Simd.Vectors(product[..factor.Length]);
        for (var i = 0; i < p.Length; i++)
        {
            p[i] = Vector.FusedMultiplyAdd(f[i], v[i], p[i]);
        }

        for (var i = p.Length * Simd.Lanes; i < factor.Length; i++)
        {
            product[i] += factor[i] * vector[i];
        }
    }
}
