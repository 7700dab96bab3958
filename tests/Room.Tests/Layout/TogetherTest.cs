using Goodsheet.Room.Layout;

namespace Goodsheet.Room.Tests.Layout;

/// <summary>Places that only some neighbours together have. What is expected was reckoned by hand.</summary>
public class TogetherTest
{
    /// <summary>A bin 10 wide and 6 high; a row of 4 × 3, 4 × 3 and 2 × 6 leaves 8 × 3 under the first two, and nothing else.</summary>
    [Theory]
    [InlineData(8, 3, false, true)]
    [InlineData(5, 2, false, true)]
    [InlineData(3, 8, true, true)]
    [InlineData(3, 8, false, false)]
    [InlineData(9, 3, false, false)]
    [InlineData(8, 4, true, false)]
    public void An_item_lies_under_two_neighbours_where_neither_has_room_alone(int width, int height, bool mayTurn, bool fits)
    {
        var (tree, chance) = (new SlicingTree(4, 1, 10, 6), new Chance(1));
        tree.AddLevel(0, [(0, 4, 3), (1, 4, 3), (2, 2, 6)]);

        Assert.False(tree.Find(width, height, mayTurn, 0, ref chance).Fits);
        Assert.Equal(fits, tree.PutTogether(3, width, height, mayTurn, int.MaxValue, 0, ref chance));
        Assert.Equal((fits, 6), (tree.IsPlaced(3), tree.TopHeight(0)));
    }

    /// <summary>A bin 6 wide and 10 high: 3 × 4, 3 × 4 and 6 × 2 one above the other leave 3 × 8 beside the first two.</summary>
    [Fact]
    public void An_item_lies_beside_two_of_a_stack()
    {
        var (tree, chance) = (new SlicingTree(4, 1, 6, 10), new Chance(1));
        tree.AddLevel(0, [(0, 3, 4)]);
        tree.AddLevel(0, [(1, 3, 4)]);
        tree.AddLevel(0, [(2, 6, 2)]);

        Assert.False(tree.Find(3, 8, false, 0, ref chance).Fits);
        Assert.True(tree.PutTogether(3, 3, 8, false, int.MaxValue, 0, ref chance));
        Assert.Equal((6, 10), (tree.Width(tree.Top(0)), tree.TopHeight(0)));
    }

    /// <summary>Six of 2 × 3 and one of 2 × 6 leave 12 × 3 free, which three of them never have: they have 6.</summary>
    [Theory]
    [InlineData(6, true)]
    [InlineData(7, false)]
    public void At_most_three_are_joined(int width, bool fits)
    {
        var (tree, chance) = (new SlicingTree(8, 1, 14, 6), new Chance(1));
        tree.AddLevel(0, [.. Enumerable.Range(0, 6).Select(i => (i, 2, 3)), (6, 2, 6)]);

        Assert.Equal(fits, tree.PutTogether(7, width, 3, false, int.MaxValue, 0, ref chance));
    }

    /// <summary>Where all of a row leave room the row itself has it, though it was passed over by chance: no row is left with one in it.</summary>
    [Fact]
    public void All_of_a_row_are_not_joined()
    {
        var (tree, chance) = (new SlicingTree(4, 1, 6, 6), new Chance(1));
        tree.AddLevel(0, [(0, 2, 3), (1, 2, 3), (2, 2, 3)]);

        Assert.False(tree.PutTogether(3, 6, 3, false, int.MaxValue, 0, ref chance));
        Assert.True(tree.Find(6, 3, false, 0, ref chance).Fits);
    }
}
