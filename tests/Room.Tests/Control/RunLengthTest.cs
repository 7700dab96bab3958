using Goodsheet.Room.Control;

namespace Goodsheet.Room.Tests.Control;

/// <summary>
/// Published average run lengths, at shifts of 0, 0.5, 1, 1.5, 2 and 3 standard deviations: Lucas and Saccucci 1990
/// (EWMA), Montgomery's textbook (Shewhart, CUSUM), T² exact; as tabulated from memory for this project.
/// </summary>
public class RunLengthTest
{
    private const double OfTable = 0.02; // the tables are rounded to three figures, or to one decimal
    private const double LastDigit = 0.05; // half of the last digit printed, which is more than 2 % of 2.0

    private static readonly double[] Shifts = [0, 0.5, 1, 1.5, 2, 3];

    [Fact]
    public void One_strip_alone() => Agrees([370, 155, 43.9, 15.0, 6.3, 2.0], s => RunLength.Shewhart(3, s));

    [Fact]
    public void A_running_mean_of_weight_one_tenth() => Agrees([500, 31.3, 10.3, 6.1, 4.4, 2.9], s => RunLength.Ewma(0.1, 2.814, s));

    [Fact]
    public void A_running_mean_of_weight_one_fifth() => Agrees([500, 41.8, 10.5, 5.5, 3.7, 2.4], s => RunLength.Ewma(0.2, 2.962, s));

    [Fact]
    public void Two_sums() => Agrees([465, 38.0, 10.4, 5.8, 4.0, 2.6], s => RunLength.Cusum(0.5, 5, s));

    [Fact]
    public void One_strip_in_three_directions() => Agrees([370, 229, 85.8, 30.9, 12.3, 3.1], s => RunLength.ThreeWays(14.156, s));

    private static void Agrees(double[] table, Func<double, double> ours)
    {
        for (var i = 0; i < Shifts.Length; i++)
        {
            Assert.Equal(table[i], ours(Shifts[i]), Math.Max(LastDigit, OfTable * table[i]));
        }
    }
}
