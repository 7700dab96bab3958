using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>What every finished profile must do, seen through Little CMS 2: greys that rise, black on black, intents that agree.</summary>
public class FinishedProfileTest
{
    private const int Steps = 256;

    private const double InkLimit = 3.2;

    // There and back through an intent that draws in. Its table covers all of L*a*b* and is clamped at the gamut: such
    // tables of 33 nodes were measured at .15 inside the gamut and .56 on its surface (three channels, colorimetric).
    private const double ThereAndBack = 0.56;

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(4)]
    public void Every_law_of_finished_profiles_is_kept(int channels) => Kept(ProfileLaws.Of(Of(channels), InkLimit));

    [Fact]
    public void Every_law_is_kept_on_a_paper_with_a_weak_black() => Kept(ProfileLaws.Of(ProfileMaker.Make(
        InventedConditions.Matte(), new() { Name = "Invented", Created = MadeProfiles.Day }, cancel: TestContext.Current.CancellationToken).File));

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(4)]
    public void Both_versions_say_and_print_the_same_colours(int channels) => Kept(ProfileLaws.Between(Of(channels), MadeProfiles.Gloss(channels, IccVersion.V2)));

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    public void Greys_of_a_picture_stay_neutral_to_the_paper(int channels)
    {
        const double neutral = 0.4; // C*ab: under what an instrument repeats
        const double ofBlack = 7;   // nearer to black the printer has no neutral, only its own hue: L*
        var black = Printed([0, 0, 0], channels).L;
        var lab = Ramp().Where(x => 100 * x > black + ofBlack).SelectMany(x => (double[])[100 * x, 0, 0]).ToArray();
        var printed = Lcms.ToLab(Lcms.FromLab(lab, Of(channels), RenderingIntent.RelativeColorimetric), Of(channels), RenderingIntent.RelativeColorimetric);
        Assert.All(printed.Chunk(3), p => Assert.InRange(double.Hypot(p[1], p[2]), 0, neutral));
    }

    [Theory]
    [InlineData(3, RenderingIntent.Perceptual)]
    [InlineData(3, RenderingIntent.Saturation)]
    [InlineData(4, RenderingIntent.Perceptual)]
    public void Intents_that_draw_in_find_their_way_back(int channels, RenderingIntent intent)
    {
        var device = Devices(channels).Select(d => channels == 4 ? 0.6 * d : d).ToArray();
        var lab = Lcms.ToLab(device, Of(channels), intent);
        var again = Lcms.ToLab(Lcms.FromLab(lab, Of(channels), intent), Of(channels), intent);
        Assert.InRange(Mean(lab, again), 0, ThereAndBack);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(4)]
    public void Black_of_a_picture_lands_on_the_black_of_the_printer(int channels)
    {
        const double drawnIn = 1; // L*: the perceptual intent knows its black; nodes of its table lie 3 L* apart

        // L*: the method of ISO 18619 tells a black from a curve through the shadows, and calls it neutral.
        const double compensated = 3;
        var darkest = Printed([0, 0, 0], channels).L;
        foreach (var intent in (RenderingIntent[])[RenderingIntent.RelativeColorimetric, RenderingIntent.Perceptual])
        {
            var ink = Lcms.Convert([0.0, 0.0, 0.0], BuiltInProfiles.SRgb(), Of(channels), intent, blackPointCompensation: true);
            var ours = new double[ink.Length];
            ColourTransform.Create(IccProfile.Read(BuiltInProfiles.SRgb()).Profile!, IccProfile.Read(Of(channels)).Profile!, intent, true).Apply([0, 0, 0], ours);
            foreach (var black in (double[][])[ink, ours])
            {
                var printed = Lcms.ToLab(black, Of(channels), RenderingIntent.RelativeColorimetric);
                Assert.InRange(printed[0], 0, darkest + (intent == RenderingIntent.Perceptual ? drawnIn : compensated));
            }
        }
    }

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    public void Warns_of_colours_out_of_reach_and_of_no_others(int channels)
    {
        var gamut = IccProfile.Read(Of(channels)).Profile!.Gamut!;
        Span<double> off = stackalloc double[1];
        gamut.Apply([55, 10, 10], off);
        Assert.Equal(0, off[0], 4);
        foreach (var (l, a, b) in ((double, double, double)[])[(50, 110, 0), (60, -110, 60), (20, 0, 110), (2, 0, 0)])
        {
            gamut.Apply([l, a, b], off);
            Assert.InRange(off[0], 0.01, 1.001); // 1, but for the last bit
        }
    }

    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(0, 0.3, 1)]
    [InlineData(1, 0, 1)]
    [InlineData(1, 0, 0)]
    [InlineData(0, 1, 0)]
    public void Colours_drawn_in_keep_their_hue(double red, double green, double blue)
    {
        // Degrees, in a space of straight hues: in L*a*b* blue would have to turn, by 26 on an offset condition. A third of
        // the way from one hue name to the next, where a circle has sixteen; common practice, no source.
        const double turn = 8;
        var wanted = Lcms.ToLab([red, green, blue], BuiltInProfiles.SRgb(), RenderingIntent.RelativeColorimetric);
        var printed = Printed([red, green, blue], 4, RenderingIntent.Perceptual);
        var (from, to) = (Hue(new(wanted[0], wanted[1], wanted[2])), Hue(printed));
        Assert.InRange(Math.Abs(Math.IEEERemainder(to - from, 360)), 0, turn);
    }

    private static byte[] Of(int channels) => MadeProfiles.Gloss(channels);

    private static double Hue(Lab colour)
    {
        var (_, p, t) = HueLinear.From(colour);
        return Math.Atan2(t, p) * 180 / Math.PI;
    }

    private static Lab Printed(double[] rgb, int channels, RenderingIntent intent = RenderingIntent.RelativeColorimetric)
    {
        var ink = Lcms.Convert(rgb, BuiltInProfiles.SRgb(), Of(channels), intent, blackPointCompensation: false);
        var lab = Lcms.ToLab(ink, Of(channels), RenderingIntent.RelativeColorimetric);
        return new(lab[0], lab[1], lab[2]);
    }

    private static void Kept(IReadOnlyList<ProfileLaws.Seen> laws) => Assert.Empty(laws.Where(law => !law.Kept).Select(law => law.ToString()));

    private static IEnumerable<double> Ramp() => Enumerable.Range(0, Steps).Select(i => i / (Steps - 1.0));

    private static double[] Devices(int channels)
    {
        var random = new Random(11);
        return [.. Enumerable.Range(0, 2_000 * channels).Select(_ => 0.06 + (0.88 * random.NextDouble()))];
    }

    private static double Mean(double[] one, double[] other) => Enumerable.Range(0, one.Length / 3)
        .Average(i => CieDe2000.Between(At(one, i), At(other, i)).Value);

    private static Lab At(double[] rows, int i) => new(rows[3 * i], rows[(3 * i) + 1], rows[(3 * i) + 2]);
}
