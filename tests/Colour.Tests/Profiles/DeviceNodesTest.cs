using Goodsheet.Colour.Profiles;

namespace Goodsheet.Colour.Tests.Profiles;

public class DeviceNodesTest
{
    // Of the way from one node to the next: what the curve's rounding to 16 bits may cost.
    private const double OfACell = 33 / 65535.0;

    [Fact]
    public void Nodes_for_RGB_lie_on_every_eighth_level_and_on_paper()
    {
        var nodes = DeviceNodes.OnLevels();
        Assert.Equal(33, nodes.Count);
        Assert.All(Enumerable.Range(0, 32), i => Assert.Equal(8 * i, 255 * nodes.At(i), 9));
        Assert.Equal(1, nodes.At(32));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(9)]
    [InlineData(33)]
    public void The_curve_of_a_table_leads_to_where_its_nodes_lie(int even)
    {
        var nodes = even == 0 ? DeviceNodes.OnLevels() : DeviceNodes.Even(even);
        var curve = nodes.Curve();
        for (var i = 0; i < nodes.Count; i++)
        {
            Assert.Equal(i, nodes.Along(nodes.At(i)), 9);
            Assert.Equal(i, curve.Evaluate(nodes.At(i)) * (nodes.Count - 1), OfACell);
        }

        for (var device = 0.0; device <= 1; device += 0.0137)
        {
            Assert.Equal(nodes.Along(device), curve.Evaluate(device) * (nodes.Count - 1), OfACell);
        }
    }
}
