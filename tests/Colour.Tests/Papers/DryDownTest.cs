using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Papers;

public class DryDownTest
{
    private const double Grid = 0.02; // the time constant is looked for in steps of 2.3 %

    [Theory]
    [InlineData(1.5, 0.6)]
    [InlineData(0.8, 4)]
    public void Finds_the_curve_it_was_made_from(double a, double tau)
    {
        var curve = DryDown.Fit([.. ((double[])[0.1, 0.5, 1, 3, 12, 24]).Select(t => (t, new DeltaE00(a * (1 - Math.Exp(-(t - 0.1) / tau)))))])!;
        Assert.InRange(curve.Whole.Value, a * (1 - Grid), a * (1 + Grid));
        Assert.InRange(curve.Tau, tau * (1 - Grid), tau * (1 + Grid));
        var after = curve.SettledAfter(new(0.18));
        Assert.Equal(0.18, curve.Whole.Value - curve.At(after).Value, 1e-9);
    }

    [Fact]
    public void Three_readings_are_enough_and_two_are_not()
    {
        Assert.NotNull(DryDown.Fit([(0.1, new(0)), (1, new(0.6)), (24, new(0.9))]));
        Assert.Null(DryDown.Fit([(0.1, new(0)), (24, new(0.9))]));
        Assert.Null(DryDown.Fit([]));
    }

    [Fact]
    public void What_hardly_moves_is_settled_at_once() =>
        Assert.Equal(0.1, DryDown.Fit([(0.1, new(0)), (1, new(0.05)), (24, new(0.1))])!.SettledAfter(new(0.18)));

    [Fact]
    public void Another_lot_with_another_tint_is_foretold_by_its_white()
    {
        var paper = new InventedPaper();
        var first = PaperFiguresTest.Chart(paper, MCondition.M1);
        var same = LotChange.Between(first, PaperFiguresTest.Chart(paper, MCondition.M1, seed: 2))!;
        var other = LotChange.Between(first, PaperFiguresTest.Chart(paper with { Warmth = paper.Warmth + 0.08 }, MCondition.M1, seed: 3))!;
        Assert.Equal(LotAnswer.Same, same.Answer);
        Assert.Equal(LotAnswer.StillHolds, other.Answer); // a warmer base to be seen beside the old one; the prints hardly move
        Assert.Equal(LotAnswer.Changed, LotChange.Between(first, PaperFiguresTest.Chart(paper with { Warmth = paper.Warmth + 0.3 }, MCondition.M1, seed: 3))!.Answer);
        Assert.InRange(other.Foretold.Mean.Value, 0.5 * other.Measured!.Value.Mean.Value, 1.5 * other.Measured.Value.Mean.Value);
        Assert.Null(LotChange.Between(first, PaperFiguresTest.Chart(paper, MCondition.M2)));
    }
}
