using Goodsheet.Colour.Colorimetry;
using Goodsheet.Room.Profiles;

namespace Goodsheet.Room.Tests.Control;

public class TileStateTest
{
    private static readonly Lab First = new(95.2, -0.3, 1.1);

    [Fact]
    public void An_instrument_that_reads_lighter_was_calibrated_on_a_dirty_tile()
    {
        Assert.True(TileState.Of([First, First with { L = 95.3 }]).IsSound);
        var dirty = TileState.Of([First, First with { L = 96 }]);
        Assert.False(dirty.IsSound);
        Assert.Contains("white tile is probably dirty", dirty.Words, StringComparison.Ordinal);
        var other = TileState.Of([First, First with { B = 2 }]);
        Assert.False(other.IsSound);
        Assert.DoesNotContain("dirty", other.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void One_reading_or_none_says_nothing_yet()
    {
        Assert.Null(TileState.Of([]).Moved);
        Assert.Null(TileState.Of([First]).Moved);
    }
}
