using Goodsheet.Room.Layout;

namespace Goodsheet.Room.Tests.Layout;

public class LayoutVerifierTest
{
    private static readonly Stock Paper = Stock.Sheet(
        NestPackerTest.Mm(100), NestPackerTest.Mm(60), new(NestPackerTest.Mm(2), NestPackerTest.Mm(2), default, default), NestPackerTest.Mm(4));

    private static readonly Nest Sound = NestPackerTest.Packed(
        ([new("card", NestPackerTest.Mm(30), NestPackerTest.Mm(20), 3), new("strip", NestPackerTest.Mm(50), NestPackerTest.Mm(5), 1, false)], Paper), 20);

    [Fact]
    public void A_sound_layout_has_no_faults() => Assert.Empty(LayoutVerifier.Check(Sound));

    [Fact]
    public void A_piece_moved_by_a_micrometre_is_found() => FindsFault(p => p with { Place = p.Place with { X = p.Place.X + 1 } });

    [Fact]
    public void A_piece_outside_the_margins_is_found() => FindsFault(p => p with { Place = p.Place with { X = 0 } });

    [Fact]
    public void A_piece_of_another_size_is_found() => FindsFault(p => p with { Place = p.Place with { Width = p.Place.Width - 1 } });

    [Fact]
    public void A_piece_said_to_be_turned_is_found() => FindsFault(p => p with { Turned = !p.Turned });

    [Fact]
    public void A_missing_piece_is_found() =>
        Assert.NotEmpty(LayoutVerifier.Check(With(Sound.Sheets[0] with { Placements = [.. Sound.Sheets[0].Placements.Skip(1)] })));

    [Fact]
    public void A_doubled_piece_is_found() =>
        Assert.NotEmpty(LayoutVerifier.Check(With(Sound.Sheets[0] with { Placements = [.. Sound.Sheets[0].Placements, Sound.Sheets[0].Placements[0]] })));

    [Fact]
    public void A_tree_that_cuts_something_else_is_found() =>
        Assert.NotEmpty(LayoutVerifier.Check(With(Sound.Sheets[0] with { Tree = new CutTree.Cut(CutDirection.Along, 10_000, CutTree.Offcut.One, Sound.Sheets[0].Tree) })));

    [Fact]
    public void A_stop_beyond_the_part_is_found() =>
        Assert.NotEmpty(LayoutVerifier.Check(With(Sound.Sheets[0] with { Tree = new CutTree.Cut(CutDirection.Along, 98_000, Sound.Sheets[0].Tree, CutTree.Offcut.One) })));

    [Fact]
    public void Less_clearance_than_the_knife_needs_is_found() =>
        Assert.NotEmpty(LayoutVerifier.Check(Sound with { Stock = Paper with { Gutter = NestPackerTest.Mm(4.001m) } }));

    private static void FindsFault(Func<Placement, Placement> wrong) => Assert.NotEmpty(LayoutVerifier.Check(
        With(Sound.Sheets[0] with { Placements = [wrong(Sound.Sheets[0].Placements[0]), .. Sound.Sheets[0].Placements.Skip(1)] })));

    private static Nest With(CutSheet sheet) => Sound with { Sheets = [sheet, .. Sound.Sheets.Skip(1)] };
}
