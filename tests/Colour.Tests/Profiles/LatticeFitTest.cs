using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>The regression of tables and the search for a first guess, beside what they say in the plainest way.</summary>
public class LatticeFitTest
{
    private const double Nudge = 1e-3;
    private const double Rounding = 1e-9; // of a sum of 800 squares in double precision; conjugate gradients leave a millionth of the residual

    [Theory]
    [InlineData(Interpolation.Multilinear)]
    [InlineData(Interpolation.Tetrahedral)]
    public void No_node_moved_either_way_fits_better(Interpolation how)
    {
        const double stiffness = 0.02;
        int[] grid = [4, 5, 6];
        var random = new Random(20261126);
        double[] Some(int count) => [.. Enumerable.Range(0, count).Select(_ => random.NextDouble())];
        var (points, targets, importance, guess, pull) = (Some(800 * 3), Some(800), Some(800), Some(120), Some(120));
        var fit = new LatticeFit(grid, how, points);
        var values = (double[])guess.Clone();
        fit.Correct(fit.Equations(fit.InOrder(importance), stiffness), values, fit.InOrder(targets), fit.InOrder(importance), pull);

        var best = Cost(values);
        for (var node = 0; node < values.Length; node++)
        {
            foreach (var step in (double[])[Nudge, -Nudge])
            {
                var moved = (double[])values.Clone();
                moved[node] += step;
                Assert.True(Cost(moved) > best - Rounding, $"node {node} by {step}: {Cost(moved)} and {best}");
            }
        }

        double Cost(double[] table)
        {
            var cost = 0.0;
            Span<int> at = stackalloc int[LatticeCell.MostCorners];
            Span<double> weight = stackalloc double[LatticeCell.MostCorners];
            for (var s = 0; s < targets.Length; s++)
            {
                var count = LatticeCell.Find(points.AsSpan(3 * s, 3), grid, how, at, weight);
                var off = targets[s];
                for (var c = 0; c < count; c++)
                {
                    off -= weight[c] * table[at[c]];
                }

                cost += importance[s] * off * off;
            }

            for (var node = 0; node < table.Length; node++)
            {
                double Moved(int n) => table[n] - guess[n];
                cost += pull[node] * Moved(node) * Moved(node);
                foreach (var (stride, count) in ((int, int)[])[(30, 4), (6, 5), (1, 6)])
                {
                    var along = node / stride % count;
                    var bend = along > 0 && along < count - 1 ? Moved(node - stride) - (2 * Moved(node)) + Moved(node + stride) : 0;
                    cost += stiffness * bend * bend;
                }
            }

            return cost;
        }
    }

    [Fact]
    public void The_nearest_of_many_colours_is_the_first_of_the_nearest()
    {
        var random = new Random(20261127);
        for (var count = 1; count < 200; count++)
        {
            // Whole numbers: several are equally near.
            var planes = Enumerable.Range(0, 3).Select(_ => Enumerable.Range(0, count).Select(_ => (double)random.Next(-6, 7)).ToArray()).ToArray();
            var wanted = new Lab(random.Next(-6, 7), random.Next(-6, 7), random.Next(-6, 7));
            var expected = Enumerable.Range(0, count).MinBy(i =>
                Math.Pow(planes[0][i] - wanted.L, 2) + ((Math.Pow(planes[1][i] - wanted.A, 2) + Math.Pow(planes[2][i] - wanted.B, 2)) / 2));
            Assert.Equal(expected, NearestColour.Of(planes, wanted));
        }
    }
}
