using Goodsheet.Colour.Gamut;

namespace Goodsheet.Colour.Tests.Gamut;

/// <summary>Against the volume by triangles, which is another way to the same figure.</summary>
public class GamutOverlapTest
{
    // Columns one unit wide on a solid of half a million: the edge is some thousand columns, half of each open to doubt.
    private const double Near = 0.005;

    private static readonly GamutSolid Gloss = GamutSolid.Of(InventedConditions.Gloss());
    private static readonly GamutSolid Matte = GamutSolid.Of(InventedConditions.Matte());

    [Fact]
    public void A_gamut_shares_all_of_itself()
    {
        var same = GamutOverlap.Of(Gloss, Gloss);
        Assert.InRange(same.First / Gloss.Volume, 1 - Near, 1 + Near);
        Assert.Equal(same.First, same.Shared, 1e-6);
    }

    [Fact]
    public void A_hazy_paper_lies_nearly_within_a_clear_one()
    {
        var two = GamutOverlap.Of(Gloss, Matte);
        Assert.InRange(two.Second / Matte.Volume, 1 - Near, 1 + Near);
        Assert.True(two.Second < 0.9 * two.First);
        Assert.InRange(two.Shared / two.Second, 0.95, 1.0);
        Assert.Equal(two.Shared, GamutOverlap.Of(Matte, Gloss).Shared, 1e-6);
    }
}
