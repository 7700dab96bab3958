using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Printer;

/// <summary>What a driver's tables leave on the print: worked by hand from its nodes, every 16 levels of all three channels.</summary>
public class DriverTablesTest
{
    // Sums of a dozen products of doubles below 1.
    private const double Rounding = 1e-12;

    [Fact]
    public void A_grey_a_quarter_into_its_cell_shares_with_black_what_lies_at_black()
    {
        // Level 4: three quarters of the table's first corner.
        Assert.Equal(0.75 * 0.002, Between([4, 4, 4], [0, 0, 0]), Rounding);
    }

    [Fact]
    public void Off_the_greys_the_table_is_read_between_the_corners_of_a_tetrahedron()
    {
        // 12, 8, 4 of 16: a quarter each of the corner, of it and red, of it and red and green, and of the far corner.
        Assert.Equal(0.25 * 0.002, Between([12, 8, 4], [0, 0, 0]), Rounding);
        Assert.Equal(0.25 * 0.002, Between([12, 8, 4], [16, 16, 0]), Rounding);
        Assert.Equal(0, Between([12, 8, 4], [0, 16, 0]), Rounding);
    }

    [Fact]
    public void What_takes_part_by_half_shares_half()
    {
        Assert.Equal(0.5 * 0.8 * 0.75 * 0.002, Between([4, 4, 4], [0, 0, 0], 0.5, 0.8), Rounding);
    }

    [Fact]
    public void Values_that_lie_between_other_nodes_share_nothing() => Assert.Equal(0, Between([40, 40, 40], [200, 140, 90]));

    [Fact]
    public void The_variance_is_what_a_value_shares_with_itself()
    {
        var random = new Random(4);
        for (var i = 0; i < 200; i++)
        {
            double[] device = [random.Next(256), random.Next(256), i % 3 == 0 ? 255 : random.Next(256)];
            Assert.Equal(DriverTables.Variance([.. device.Select(v => v / 255)]), Between(device, device), Rounding);
        }
    }

    [Fact]
    public void Only_the_first_data_are_filled()
    {
        var row = new double[3];
        new DriverTables.Nodes([[0, 0, 0], [0, 0, 0], [0, 0, 0]], [1, 1, 1]).Add([0, 0, 0], 1, row, 2);
        Assert.Equal(row[0], row[1]);
        Assert.Equal(0, row[2]);
    }

    private static double Between(double[] one, double[] other, double ofOne = 1, double ofOther = 1)
    {
        var row = new double[1];
        new DriverTables.Nodes([[.. one.Select(v => v / 255)]], [ofOne]).Add([.. other.Select(v => v / 255)], ofOther, row, 1);
        return row[0];
    }
}
