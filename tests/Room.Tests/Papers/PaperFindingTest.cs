using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Tests.Papers;

public class PaperFindingTest
{
    // Densities of black with the right and with the wrong black, from memory of the trade; no source.
    public static TheoryData<PaperClass, double, double> Blacks => new()
    {
        { PaperClass.Gloss, 2.5, 1.8 }, { PaperClass.Satin, 2.3, 1.75 }, { PaperClass.Pearl, 2.3, 1.75 }, { PaperClass.Matte, 1.65, 1.25 },
        { PaperClass.SmoothFineArt, 1.65, 1.25 }, { PaperClass.TexturedFineArt, 1.6, 1.2 }, { PaperClass.Baryta, 2.4, 1.8 }, { PaperClass.Canvas, 1.5, 1.2 },
    };

    [Theory]
    [MemberData(nameof(Blacks))]
    public void The_wrong_black_is_found_in_every_class_and_the_right_one_passes(PaperClass paper, double right, double wrong)
    {
        var rule = Rule(paper);
        Assert.Empty(PaperFinding.Of(Figures(right), rule));
        Assert.Empty(PaperFinding.Of(Figures(right - 0.1), rule, Figures(right)));
        Assert.Equal(PaperFault.WrongBlack, Assert.Single(PaperFinding.Of(Figures(wrong), rule)).Fault);
        Assert.Equal(PaperFault.WrongBlack, Assert.Single(PaperFinding.Of(Figures(wrong), rule, Figures(right))).Fault);
    }

    [Fact]
    public void The_bare_side_weakens_every_colour_and_the_wrong_black_only_black()
    {
        var rule = Rule(PaperClass.Matte);
        Assert.Equal(PaperFault.WrongSide, Assert.Single(PaperFinding.Of(Figures(1.1, solids: 41), rule)).Fault);
        Assert.Equal(PaperFault.WrongSide, Assert.Single(PaperFinding.Of(Figures(1.3, solids: 55), rule, Figures(1.65))).Fault);
        Assert.Empty(PaperFinding.Of(Figures(1.65, solids: 60), rule, Figures(1.65)));
    }

    [Fact]
    public void Too_much_ink_turns_back_or_pools()
    {
        var rule = Rule(PaperClass.Matte);
        Assert.Equal(PaperFault.TooMuchInk, Assert.Single(PaperFinding.Of(Figures(1.65) with { StepsBack = 1.1 }, rule)).Fault);
        Assert.Equal(PaperFault.TooMuchInk, Assert.Single(PaperFinding.Of(Figures(1.65) with { Grain = 1.3 }, rule)).Fault);
        Assert.Empty(PaperFinding.Of(Figures(1.65) with { StepsBack = 0.9, Grain = 1.1 }, rule));
    }

    [Fact]
    public void Age_is_told_against_another_lot_only()
    {
        var (rule, fresh, yellow) = (Rule(PaperClass.Matte), Figures(1.65), Figures(1.65) with { White = new Lab(95, 0, 2.2) });
        Assert.Equal(PaperFault.Aged, Assert.Single(PaperFinding.Of(yellow, rule, fresh, anotherLot: true)).Fault);
        Assert.Empty(PaperFinding.Of(yellow, rule, fresh));
        Assert.Empty(PaperFinding.Of(fresh, rule, yellow, anotherLot: true));
    }

    [Fact]
    public void Each_purpose_names_one_paper_with_both_numbers()
    {
        var (dark, clean) = (Figures(2.4) with { White = new Lab(95, 0, 4) }, Figures(1.65));
        var best = PaperComparison.Of([(dark, PaperVerdict.Of(dark, null)), (clean, PaperVerdict.Of(clean, null))]);
        Assert.Equal(0, best.Single(b => b.Purpose.StartsWith("Night", StringComparison.Ordinal)).Best);
        Assert.Equal(1, best.Single(b => b.Purpose.StartsWith("A white", StringComparison.Ordinal)).Best);
        Assert.All(best, b => Assert.Contains("next", b.Reason, StringComparison.Ordinal));
        Assert.Empty(PaperComparison.Of([(dark, PaperVerdict.Of(dark, null))]));
    }

    // The matte and gloss of the real charts: b* -4.4 and +1.5 with and without ultraviolet, and a difference of .6.
    [Theory]
    [InlineData(-4.4, 1.5, 8.5, PaperVerdict.CleanOnlyUnderUv, Brightener.Moderate)]
    [InlineData(-2.3, -1.7, 0.85, "clean", Brightener.None)]
    public void A_white_is_said_in_words(double with, double without, double brightness, string white, Brightener brightener)
    {
        var seen = Figures(1.7) with { White = new Lab(96, 0, with), Brightness = 100 };
        var verdict = PaperVerdict.Of(seen, seen with { Condition = MCondition.M2, White = new Lab(96, 0, without), Brightness = 100 - brightness });
        Assert.Equal((white, brightener), (verdict.White, verdict.Brightener));
    }

    private static ClassRule Rule(PaperClass paper) => TradeRules.New().Single(r => r.Class == paper);

    private static PaperFigures Figures(double dMax, double solids = 75) => new()
    {
        Condition = MCondition.M0,
        Patches = 100,
        White = new Lab(95, 0, 0),
        Darkest = new Lab(15, 0, 0),
        DMax = dMax,
        Solids = solids,
    };
}
