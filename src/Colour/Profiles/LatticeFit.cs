using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>Lattice regression: node values such that the table, interpolated as engines do it, meets known values between its nodes.</summary>
/// <remarks>
/// E. K. Garcia, M. R. Gupta, "Lattice regression", NIPS 22 (2009). Nodes are corrected from a first guess; a pull
/// towards the guess and a penalty on bends of the correction keep nodes that no value reaches where they were. Solved
/// by conjugate gradients on the normal equations (<see cref="NodeMatrix"/>). (The optimising of a table off its grid was
/// once patented in the United States; that is from memory and the patents are said to have ended.)
/// </remarks>
internal sealed class LatticeFit
{
    private const int MostSteps = 40;
    private const double Enough = 1e-6; // of the first residual

    private readonly int[] grid;
    private readonly int corners;
    // Samples of one cell lie side by side: what they ask of its nodes is summed up near the core, and added once.
    private readonly int[] order;
    private readonly int[] nodes;
    private readonly float[] weights;
    private readonly int samples;

    /// <param name="grid">Nodes along each channel.</param>
    /// <param name="how">How the engine interpolates this table.</param>
    /// <param name="points">Where values are known: rows of coordinates, each 0 to 1.</param>
    public LatticeFit(int[] grid, Interpolation how, double[] points)
    {
        this.grid = grid;
        samples = points.Length / grid.Length;
        corners = how == Interpolation.Multilinear || grid.Length < 3 ? 1 << grid.Length : 4 << (grid.Length - 3);
        var (at, weight, cells) = (new int[samples * corners], new float[samples * corners], new int[samples]);
        Parallel.For(0, samples, s =>
        {
            Span<double> weights = stackalloc double[LatticeCell.MostCorners];
            Span<int> nodes = stackalloc int[LatticeCell.MostCorners];
            LatticeCell.Find(points.AsSpan(s * grid.Length, grid.Length), grid, how, nodes, weights);
            cells[s] = nodes[0];
            for (var c = 0; c < corners; c++)
            {
                at[(s * corners) + c] = nodes[c];
                weight[(s * corners) + c] = (float)weights[c];
            }
        });
        order = [.. Enumerable.Range(0, samples)];
        Array.Sort(cells, order);
        (nodes, weights) = (new int[at.Length], new float[at.Length]);
        for (var k = 0; k < samples; k++)
        {
            at.AsSpan(order[k] * corners, corners).CopyTo(nodes.AsSpan(k * corners));
            weight.AsSpan(order[k] * corners, corners).CopyTo(weights.AsSpan(k * corners));
        }
    }

    /// <summary>What belongs to the points, one cell after the other: the order in which all else is asked and told here.</summary>
    public T[] InOrder<T>(IReadOnlyList<T> ofPoints) => Array.ConvertAll(order, i => ofPoints[i]);

    /// <summary>What the known values of one output ask of its nodes: formed once, for as many corrections as have the same importance.</summary>
    /// <param name="importance">How much each of them counts, 0 or more, <see cref="InOrder"/>.</param>
    /// <param name="stiffness">How strongly bends of a correction are resisted.</param>
    public NodeMatrix Equations(double[] importance, double stiffness)
    {
        var matrix = new NodeMatrix(grid, stiffness);
        var cell = new CellSums(corners);
        for (var k = 0; k < samples; k++)
        {
            var at = nodes.AsSpan(k * corners, corners);
            if (k == 0 || at[0] != nodes[(k - 1) * corners] || !at.SequenceEqual(nodes.AsSpan((k - 1) * corners, corners)))
            {
                if (k > 0)
                {
                    cell.Give(matrix);
                }

                cell.Begin(at);
            }

            if (importance[k] is > 0 and var counts)
            {
                cell.Add(weights.AsSpan(k * corners, corners), counts);
            }
        }

        if (samples > 0)
        {
            cell.Give(matrix);
        }

        return matrix;
    }

    /// <summary>Corrects the node values of one output.</summary>
    /// <param name="equations">The <see cref="Equations"/> of the same importance.</param>
    /// <param name="values">The first guess, one value a node; corrected in place.</param>
    /// <param name="targets">The known values, <see cref="InOrder"/>.</param>
    /// <param name="importance">How much each of them counts.</param>
    /// <param name="pull">How strongly each node is held to its first guess.</param>
    public void Correct(NodeMatrix equations, double[] values, double[] targets, double[] importance, double[] pull)
    {
        var residual = new double[values.Length];
        for (var k = 0; k < samples; k++)
        {
            var amount = importance[k];
            if (amount > 0)
            {
                amount *= targets[k] - At(values, k);
                for (var c = k * corners; c < (k + 1) * corners; c++)
                {
                    residual[nodes[c]] += weights[c] * amount;
                }
            }
        }

        var correction = equations.Solve(residual, pull, MostSteps, Enough);
        for (var i = 0; i < values.Length; i++)
        {
            values[i] += correction[i];
        }
    }

    /// <summary>What a table with these node values says where a value is known.</summary>
    /// <param name="values">One value a node.</param>
    /// <param name="sample">Which of the known values, <see cref="InOrder"/>.</param>
    public double At(double[] values, int sample)
    {
        var sum = 0.0;
        for (var c = sample * corners; c < (sample + 1) * corners; c++)
        {
            sum += weights[c] * values[nodes[c]];
        }

        return sum;
    }
}
