using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>Lattice regression: node values such that the table, interpolated as engines do it, meets known values between its nodes.</summary>
/// <remarks>
/// E. K. Garcia, M. R. Gupta, "Lattice regression", NIPS 22 (2009). Nodes are corrected from a first guess; a pull
/// towards the guess and a penalty on bends of the correction keep nodes that no value reaches where they were. Solved
/// by conjugate gradients on the normal equations, never formed. (The optimising of a table off its grid was once
/// patented in the United States; that is from memory and the patents are said to have ended.)
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
        corners = LatticeCell.MostCorners;
        nodes = new int[samples * corners];
        weights = new float[samples * corners];
        Parallel.For(0, samples, s =>
        {
            Span<int> at = stackalloc int[LatticeCell.MostCorners];
            Span<double> weight = stackalloc double[LatticeCell.MostCorners];
            var count = LatticeCell.Find(points.AsSpan(s * grid.Length, grid.Length), grid, how, at, weight);
            for (var c = 0; c < count; c++)
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
        var count = values.Length;
        var residual = new double[count];
        for (var s = 0; s < samples; s++)
        {
            Add(residual, s, importance[s] * (targets[s] - At(values, s)));
        }

        var correction = new double[count];
        var direction = (double[])residual.Clone();
        var product = new double[count];
        var energy = Dot(residual, residual);
        var goal = energy * Enough * Enough;
        for (var k = 0; k < MostSteps && energy > goal && energy > 0; k++)
        {
            Multiply(direction, product, importance, pull, stiffness);
            var along = energy / Dot(direction, product);
            for (var i = 0; i < count; i++)
            {
                correction[i] += along * direction[i];
                residual[i] -= along * product[i];
            }

            var next = Dot(residual, residual);
            var turn = next / energy;
            energy = next;
            for (var i = 0; i < count; i++)
            {
                direction[i] = residual[i] + (turn * direction[i]);
            }
        }

        for (var i = 0; i < count; i++)
        {
            values[i] += correction[i];
        }
    }

    private void Multiply(double[] vector, double[] product, double[] importance, double[] pull, double stiffness)
    {
        for (var i = 0; i < vector.Length; i++)
        {
            product[i] = pull[i] * vector[i];
        }

        for (var s = 0; s < samples; s++)
        {
            Add(product, s, importance[s] * At(vector, s));
        }

        var stride = 1;
        for (var channel = grid.Length - 1; channel >= 0; channel--)
        {
            Bend(vector, product, stride, grid[channel], stiffness);
            stride *= grid[channel];
        }
    }

    // The square of second differences along one channel.
    private static void Bend(double[] vector, double[] product, int stride, int points, double stiffness)
    {
        for (var i = 0; i < vector.Length; i++)
        {
            var along = i / stride % points;
            if (along == 0 || along == points - 1)
            {
                continue;
            }

            var bend = stiffness * (vector[i - stride] - (2 * vector[i]) + vector[i + stride]);
            product[i - stride] += bend;
            product[i] -= 2 * bend;
            product[i + stride] += bend;
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

    private void Add(double[] to, int sample, double amount)
    {
        for (var c = sample * corners; c < (sample + 1) * corners; c++)
        {
            to[nodes[c]] += weights[c] * amount;
        }
    }

    private static double Dot(double[] one, double[] other)
    {
        var sum = 0.0;
        for (var i = 0; i < one.Length; i++)
        {
            sum += one[i] * other[i];
        }

        return sum;
    }
}
