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
        nodes = new int[samples * corners];
        weights = new float[samples * corners];
        Parallel.For(0, samples, s =>
        {
            Span<int> at = stackalloc int[LatticeCell.MostCorners];
            Span<double> weight = stackalloc double[LatticeCell.MostCorners];
            LatticeCell.Find(points.AsSpan(s * grid.Length, grid.Length), grid, how, at, weight);
            for (var c = 0; c < corners; c++)
            {
                nodes[(s * corners) + c] = at[c];
                weights[(s * corners) + c] = (float)weight[c];
            }
        });
    }

    /// <summary>Corrects the node values of one output.</summary>
    /// <param name="values">The first guess, one value a node; corrected in place.</param>
    /// <param name="targets">The known values.</param>
    /// <param name="importance">How much each known value counts, 0 or more.</param>
    /// <param name="pull">How strongly each node is held to its first guess.</param>
    /// <param name="stiffness">How strongly bends of the correction are resisted.</param>
    public void Correct(double[] values, double[] targets, double[] importance, double[] pull, double stiffness)
    {
        var matrix = new NodeMatrix(grid, pull, stiffness);
        var residual = new double[values.Length];
        for (var s = 0; s < samples; s++)
        {
            if (importance[s] > 0)
            {
                var at = nodes.AsSpan(s * corners, corners);
                var weight = weights.AsSpan(s * corners, corners);
                matrix.Add(at, weight, importance[s]);
                var amount = importance[s] * (targets[s] - At(values, s));
                for (var c = 0; c < corners; c++)
                {
                    residual[at[c]] += weight[c] * amount;
                }
            }
        }

        var correction = matrix.Solve(residual, MostSteps, Enough);
        for (var i = 0; i < values.Length; i++)
        {
            values[i] += correction[i];
        }
    }

    /// <summary>What a table with these node values says where a value is known.</summary>
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
