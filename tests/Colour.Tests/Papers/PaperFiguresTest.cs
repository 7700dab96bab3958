using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Whiteness;

namespace Goodsheet.Colour.Tests.Papers;

public class PaperFiguresTest
{
    private const double Noise = 0.3; // dE00 that a quiet invented room repeats to, at most

    private static readonly InventedPaper Brightened = new() { White = 0.89, Warmth = 0.03, Brightener = 0.16, Surface = 0.02 };
    private static readonly PaperFigures WithUv = Of(Brightened, MCondition.M1);
    private static readonly PaperFigures WithoutUv = Of(Brightened, MCondition.M2);

    [Fact]
    public void A_brightened_paper_is_told_by_two_readings_and_only_by_such_a_pair()
    {
        var found = WithUv.BrightenerAgainst(WithoutUv)!;
        Assert.True(found.Index > 3, $"{found}");
        Assert.Equal(WithUv.Brightness - WithoutUv.Brightness, found.BrightnessDifference);
        Assert.Null(WithoutUv.BrightenerAgainst(WithUv));
        Assert.Null(WithUv.BrightenerAgainst(WithUv));
        Assert.Equal(BrightenerClass.Faint, Of(Brightened with { Brightener = 0 }, MCondition.M1).BrightenerAgainst(Of(Brightened with { Brightener = 0 }, MCondition.M2))!.Class);
    }

    [Fact]
    public void Says_black_gamut_greys_and_noise()
    {
        Assert.Equal(-Math.Log10(WithUv.Darkest.ToXyz(Xyz.D50).Y / Xyz.D50.Y), WithUv.DMax, 1e-12);
        Assert.InRange(WithUv.Volume!.Value, 0.97 * WithUv.Reach!.VolumeOf(0, 360), 1.03 * WithUv.Reach.VolumeOf(0, 360)); // slices of 5 L* against the solid
        Assert.Equal(Math.Abs(WithUv.Volume.Value - WithUv.VolumeFollowed!.Value), WithUv.VolumeGiveOrTake);
        Assert.Equal(21, WithUv.Greys.Length);
        Assert.InRange(WithUv.Greys[^1].L, 99.5, 100.5);
        Assert.InRange(WithUv.Grain!.Value, 0.02, Noise);
        Assert.InRange(WithUv.StepsBack!.Value, 0, 0.5);
        Assert.True(WithUv.Solids > 40);
    }

    [Fact]
    public void A_print_that_gets_lighter_with_more_ink_is_seen()
    {
        var chart = Chart(Brightened, MCondition.M1);
        var flooded = chart with { Patches = [.. chart.Patches.Select(p => p with { Lab = p.Lab with { L = p.Lab.L + (p.Device.Sum() < 1 ? 30 * (1 - p.Device.Sum()) : 0) } })] };
        Assert.True(Of(flooded).StepsBack > 2);
    }

    [Fact]
    public void A_chart_without_bare_paper_has_no_white_and_a_strip_no_gamut()
    {
        var chart = Chart(Brightened, MCondition.M1);
        var inked = Of(chart with { Patches = [.. chart.Patches.Where(p => p.Device.Sum() < 3)] });
        Assert.Null(inked.White);
        Assert.Null(inked.Volume);
        Assert.Null(Of(chart with { Patches = chart.Patches[..20] }).Reach);
    }

    internal static MeasurementSet Chart(InventedPaper paper, MCondition condition, int seed = 1)
    {
        var patches = new List<double[]>();
        for (var i = 0; i < 125; i++)
        {
            patches.Add([i / 25 / 4.0, i / 5 % 5 / 4.0, i % 5 / 4.0]);
        }

        patches.AddRange([[0.5, 0.5, 0.5], [1, 1, 1], [1, 1, 1], [0, 0, 0]]);
        return InventedPrinter.Read(InventedPrinter.On(paper, pigment: true, condition: condition), patches, seed, condition: condition);
    }

    private static PaperFigures Of(InventedPaper paper, MCondition condition) => Of(Chart(paper, condition));

    private static PaperFigures Of(MeasurementSet chart) => PaperFigures.Of(chart, TestContext.Current.CancellationToken);
}
