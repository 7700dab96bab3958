using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Gamut;

public class GamutReachTest
{
    // A cylinder of 24 sides instead of a round one, and rays between its corners: 1 - cos(7.5 degrees) at most.
    private const double Sides = 0.01;

    private static readonly GamutReach Wide = GamutReach.Of(GamutSolid.Of(new Cone(60)));
    private static readonly GamutReach Narrow = GamutReach.Of(GamutSolid.Of(new Cone(30)));

    [Fact]
    public void Reaches_as_far_in_each_hue_as_the_solid_does()
    {
        var middle = Wide.Chroma[GamutReach.Lightnesses.IndexOf(50)];
        Assert.All(middle, c => Assert.InRange(c, 60 * (1 - Sides), 60 * (1 + Sides)));
        Assert.All(Wide.Chroma[GamutReach.Lightnesses.IndexOf(5)], c => Assert.Equal(0, c));
    }

    [Fact]
    public void Its_parts_make_the_whole()
    {
        var whole = Wide.VolumeOf(0, 360);
        Assert.Equal(whole, Enumerable.Range(0, 6).Sum(i => Wide.VolumeOf((60 * i) - 30, (60 * i) + 30)), 1e-6 * whole);
        Assert.Equal(whole, Wide.VolumeOf(0, 360, 0, 35) + Wide.VolumeOf(0, 360, 35, 100), 1e-6 * whole);
    }

    [Fact]
    public void What_no_other_reaches_is_told_as_a_part_of_the_volume()
    {
        Assert.Equal(0, Narrow.BeyondAll([Wide]), 6);
        Assert.Equal(0.75, Wide.BeyondAll([Narrow, Narrow]), 2); // half as wide is a quarter of the volume
        Assert.Equal(1, Wide.BeyondAll([]), 6);
    }

    [Fact]
    public void A_wider_gamut_loses_nothing_on_itself_and_something_on_a_narrower_one()
    {
        Assert.Equal(0, Wide.LostOn(Wide).Largest.Value, 1e-9);
        Assert.Equal(0, Narrow.LostOn(Wide).Largest.Value, 1e-9);
        var (mean, largest, share) = Wide.LostOn(Narrow);
        Assert.InRange(mean.Value, 2, largest.Value);
        Assert.True(share > 0.5);
    }

    // From L* 10 to 90: a body whose slice at every lightness is a square of the same chroma in all its hues, made round.
    private sealed class Cone(double chroma) : IPrinterModel
    {
        public int Channels => 3;

        public void Predict(ReadOnlySpan<double> device, Span<double> lab)
        {
            for (var i = 0; i < device.Length; i += 3)
            {
                var (x, y) = ((2 * device[i + 1]) - 1, (2 * device[i + 2]) - 1);
                var round = Math.Max(Math.Abs(x), Math.Abs(y)) / Math.Max(1e-12, double.Hypot(x, y)); // a square onto a disc
                (lab[i], lab[i + 1], lab[i + 2]) = (10 + (80 * device[i]), chroma * x * round, chroma * y * round);
            }
        }
    }
}
