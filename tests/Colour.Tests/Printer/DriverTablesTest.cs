using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Printer;

/// <summary>What a driver's tables leave on the print: worked by hand from their nodes, every 8 levels of a channel and every 16 of all three.</summary>
public class DriverTablesTest
{
    // Sums of a dozen products of doubles below 1.
    private const double Rounding = 1e-12;

    [Fact]
    public void A_grey_a_quarter_into_its_cell_shares_with_black_what_lies_at_black()
    {
        // Level 4: half of the first node of each curve, three quarters of the table's first corner.
        Assert.Equal((3 * 0.5 * 0.00005) + (0.75 * 0.002), Between([4, 4, 4], [0, 0, 0]), Rounding);
    }

    [Fact]
    public void Off_the_greys_the_table_is_read_between_the_corners_of_a_tetrahedron()
    {
        // 12, 8, 4 of 16: a quarter each of the corner, of it and red, of it and red and green, and of the far corner. Each shares
        // half a node of the blue curve; the second half a node of the red curve too.
        Assert.Equal((0.25 * 0.002) + (0.5 * 0.00005), Between([12, 8, 4], [0, 0, 0]), Rounding);
        Assert.Equal((0.25 * 0.002) + (2 * 0.5 * 0.00005), Between([12, 8, 4], [16, 0, 0]), Rounding);
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
        new DriverTables.Nodes([[0, 0, 0], [0, 0, 0], [0, 0, 0]]).Add([0, 0, 0], row, 2);
        Assert.Equal(row[0], row[1]);
        Assert.Equal(0, row[2]);
    }

    private static double Between(double[] one, double[] other)
    {
        var row = new double[1];
        new DriverTables.Nodes([[.. one.Select(v => v / 255)]]).Add([.. other.Select(v => v / 255)], row, 1);
        return row[0];
    }
}
