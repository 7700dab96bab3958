using CsCheck;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Tests.Layout;

public sealed class TilingTest
{
    private static readonly Length Margin = Mm(14);

    [Fact]
    public void A_print_wider_than_the_roll_becomes_tiles_of_one_size_whose_seams_make_exactly_the_whole()
    {
        // Of a roll of 610 mm 582 are left for the picture: 1200 mm are 3 columns of 413.334 mm that share 20 mm twice; along it 4000 mm go.
        var tiling = Tiling.Of(Mm(1200), Mm(4000), Mm(610), null, Margin, Mm(20)).Value!;
        Assert.Equal((false, 3, 1), (tiling.Turned, tiling.Columns, tiling.Rows));
        Assert.All(tiling.Tiles, t => Assert.Equal((Mm(413.334m), Mm(4000)), (t.Width, t.Height)));
        Assert.Equal([Mm(0), Mm(403.333m), Mm(796.666m)], tiling.Tiles.Select(t => t.Left), (a, b) => Math.Abs((a - b).Micrometres) <= 1);
        Assert.Equal(Mm(1200), tiling.Tiles[^1].Right);
    }

    [Fact]
    public void Fewer_tiles_lie_along_the_roll_where_that_is_fewer()
    {
        var tiling = Tiling.Of(Mm(2400), Mm(1000), Mm(610), null, Margin, Mm(20)).Value!;
        Assert.Equal((true, 1, 2), (tiling.Turned, tiling.Columns, tiling.Rows));
        Assert.Equal([(Mm(0), Mm(510), Mm(0), Mm(500)), (Mm(490), Mm(510), Mm(500), Mm(1000))], tiling.Tiles.Select(t => (t.Y, t.Height, t.Top, t.Bottom)));
        Assert.Equal((Mm(538), Mm(2428)), tiling.PaperOf(tiling.Tiles[0]));
    }

    [Fact]
    public void A_print_that_goes_on_whole_is_one_tile()
    {
        var tiling = Tiling.Of(Mm(500), Mm(400), Mm(610), null, Margin, Mm(20)).Value!;
        var tile = Assert.Single(tiling.Tiles);
        Assert.Equal((Mm(0), Mm(0), Mm(500), Mm(400), Mm(500), Mm(400)), (tile.X, tile.Y, tile.Width, tile.Height, tile.Right, tile.Bottom));
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.IsType<Tiling.CannotBe>(Tiling.Of(Mm(0), Mm(400), Mm(610), null, Margin, Mm(20)).Refusal);
        Assert.IsType<Tiling.CannotBe>(Tiling.Of(Mm(400), Mm(400), Mm(610), null, Margin, Mm(-1)).Refusal);
        Assert.IsType<Tiling.TooNarrow>(Tiling.Of(Mm(400), Mm(400), Mm(90), null, Margin, Mm(20)).Refusal);
        Assert.IsType<Tiling.TooMany>(Tiling.Of(Mm(19_999), Mm(19_999), Mm(210), Mm(297), Margin, Mm(20)).Refusal);
    }

    [Fact]
    public void Tiles_fit_their_paper_overlap_at_least_as_asked_and_their_trimmed_parts_make_the_whole_without_gap_or_doubling()
    {
        var micrometres = Gen.Long[60_000, 6_000_000];
        Gen.Select(micrometres, micrometres, Gen.Long[200_000, 1_600_000], Gen.Long[200_000, 1_600_000], Gen.Long[0, 40_000], Gen.Bool).Sample((width, height, across, along, overlap, isRoll) =>
        {
            var tiled = Tiling.Of(Um(width), Um(height), Um(across), isRoll ? null : Um(along), Margin, Um(overlap));
            if (tiled.Value is not { } tiling)
            {
                return tiled.Refusal is Tiling.TooMany;
            }

            var (most, far) = (Um(across), isRoll ? Tiling.LongestOnRoll : Um(along));
            var whole = tiling.Tiles.All(t => tiling.PaperOf(t) is var paper && paper.Across <= most && paper.Along <= far
                && t.X >= Length.Zero && t.Y >= Length.Zero && t.X + t.Width <= Um(width) && t.Y + t.Height <= Um(height)
                && t.Left >= t.X && t.Top >= t.Y && t.Right <= t.X + t.Width && t.Bottom <= t.Y + t.Height);
            var area = tiling.Tiles.Sum(t => (decimal)(t.Right - t.Left).Micrometres * (t.Bottom - t.Top).Micrometres);
            var joined = tiling.Tiles.All(t => (t.Column == 1 ? t.Left == Length.Zero : Next(tiling, t, -1) is var before && before.Right == t.Left && before.X + before.Width - t.X >= Um(overlap))
                && (t.Column < tiling.Columns || t.Right == Um(width)) && (t.Row < tiling.Rows || t.Bottom == Um(height)) && (t.Row > 1 || t.Top == Length.Zero)
                && (t.Row == 1 || (Next(tiling, t, -tiling.Columns) is var above && above.Bottom == t.Top && above.Y + above.Height - t.Y >= Um(overlap))));
            return whole && joined && area == (decimal)width * height;
        });
    }

    [Fact]
    public void No_fewer_would_do()
    {
        Gen.Select(Gen.Int[300, 5000], Gen.Int[300, 1600], Gen.Int[0, 40]).Sample((width, paper, overlap) =>
        {
            var tiling = Tiling.Of(Mm(width), Mm(300), Mm(paper), Mm(340), Margin, Mm(overlap)).Value;
            return tiling is null || tiling.Turned || tiling.Columns == 1 || ((tiling.Columns - 1) * (paper - 28)) - ((tiling.Columns - 2) * overlap) < width;
        });
    }

    private static Tile Next(Tiling tiling, Tile tile, int step) => tiling.Tiles[tile.Number - 1 + step];

    private static Length Mm(decimal mm) => Length.FromMillimetres(mm);

    private static Length Um(long micrometres) => Length.FromMicrometres(micrometres);
}
