using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>What a picture is said to lose, and what it is shown to look like.</summary>
public class ProofTest
{
    private const int OneCodeOf8Bits = 1;
    private const int NearlyWhite = 245; // the invented printer's own table does not end on bare paper

    [Fact]
    public void Into_its_own_space_nothing_is_lost_and_nothing_changes()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.png", 64, 64);
        var own = Scratch.Read(BuiltInProfiles.SRgb());

        var looked = Scratch.Look(picture, own).Value!;
        var shown = ProofPicture.Render(picture, own, new() { Hatch = true }).Value!;

        Assert.Equal(0, looked.MissedColours.Share);
        Assert.InRange(looked.MissedColours.Largest, 0, 0.01);
        using var before = Image.NewFromFile(picture);
        using var after = Image.NewFromBuffer(shown.File);
        using var apart = (before - after).Abs();
        Assert.InRange(apart.Max(), 0, OneCodeOf8Bits);
    }

    [Fact]
    public void A_narrow_printer_does_not_hold_a_vivid_ramp_and_the_hatch_is_neutral()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.png", 200, 200);
        var printer = Scratch.Read(Scratch.Printer);

        var looked = Scratch.Look(picture, printer).Value!;
        Assert.InRange(looked.MissedColours.Share, 0.01, 0.99);
        Assert.True(looked.MissedColours.Largest >= looked.MissedColours.MeanOutside && looked.MissedColours.MeanOutside > 2);

        using var plain = Image.NewFromBuffer(ProofPicture.Render(picture, printer, new()).Value!.File);
        using var hatched = Image.NewFromBuffer(ProofPicture.Render(picture, printer, new() { Hatch = true }).Value!.File);
        var (was, now) = (plain.WriteToMemory<byte>(), hatched.WriteToMemory<byte>());
        var changed = 0;
        for (var i = 0; i < was.Length; i += 3)
        {
            if (was[i] != now[i] || was[i + 1] != now[i + 1] || was[i + 2] != now[i + 2])
            {
                changed++;
                Assert.True(now[i] == now[i + 1] && now[i + 1] == now[i + 2], "a hatch with a colour of its own");
            }
        }

        Assert.InRange(changed / 40_000.0, looked.MissedColours.Share / 8, looked.MissedColours.Share / 2);
    }

    [Fact]
    public void The_paper_s_white_is_seen_only_when_asked_for()
    {
        using var scratch = new Scratch();
        using (var white = Image.Black(20, 20, bands: 3) + 255)
        using (var codes = white.Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb))
        {
            codes.Pngsave(scratch["white.png"]);
        }

        var printer = Scratch.Read(Scratch.Printer);
        double[] Seen(bool paper) => Image.NewFromBuffer(
            ProofPicture.Render(scratch["white.png"], printer, new() { PaperWhite = paper }).Value!.File)[10, 10];

        var (used, paper) = (Seen(false), Seen(true));
        Assert.All(used, c => Assert.InRange(c, NearlyWhite, 255));
        Assert.All(paper.Zip(used), c => Assert.InRange(c.First, 180, c.Second - 8));
    }

    [Theory]
    [InlineData(1.0, 200, 200, 0.1667)] // a square out of three by two: a sixth goes on each side
    [InlineData(3.0, 300, 100, 0)]
    [InlineData(1.5, 300, 200, 0)]
    public void A_print_of_another_shape_is_shown_cut_evenly_on_both_sides(double shape, int width, int height, double cut)
    {
        using var scratch = new Scratch();
        var own = Scratch.Read(BuiltInProfiles.SRgb());
        var shown = ProofPicture.Render(scratch.Ramp("in.png", 300, 200), own, new() { Shape = shape }).Value!;
        Assert.Equal((width, height), (shown.Width, shown.Height));
        using var file = Image.NewFromBuffer(shown.File);
        // Red rises evenly from left to right.
        Assert.Equal(cut, file[0, height / 2][0] / 255, 0.01);
        Assert.Equal(1 - cut, file[width - 1, height / 2][0] / 255, 0.01);
    }

    [Fact]
    public void Clipped_ends_are_counted_pixel_by_pixel()
    {
        using var scratch = new Scratch();
        var looked = Scratch.Look(scratch.Ramp("in.tif", 256, 256), Scratch.Read(BuiltInProfiles.SRgb())).Value!;

        Assert.Equal([1 / 256.0, 1 / 256.0, 0], looked.ClippedLow);
        Assert.Equal([1 / 256.0, 1 / 256.0, 0], looked.ClippedHigh);
    }

    [Fact]
    public void A_grey_picture_is_all_neutral_and_proofs_as_well()
    {
        using var scratch = new Scratch();
        using (var ramp = Image.Grey(256, 20, uchar: true))
        {
            ramp.Pngsave(scratch["grey.png"]);
        }

        var printer = Scratch.Read(Scratch.Printer);
        Assert.Equal(1, Scratch.Look(scratch["grey.png"], printer).Value!.NeutralShare);
        var proof = ProofPicture.Render(scratch["grey.png"], printer, new() { Jpeg = true, LongestSide = 128 }).Value!;
        Assert.Equal((128, 10), (proof.Width, proof.Height));
        Assert.Equal([0xFF, 0xD8], proof.File[..2]);
    }
}
