using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>Prepared files read back through libtiff, by libvips: our writer is no part of that.</summary>
public class PrintPreparationTest
{
    // A quarter of an 8-bit code: the other engine takes 8 bits in and runs optimised tables (libvips sets no flags).
    private const int OtherEngineRounds = 64;
    private const double HalfATurnedCorner = 0.02;
    private const double AnEighthOfAnEightBitCode = 32; // both mix in single precision; ours reads its curve from a table

    [Theory]
    [InlineData(100, 60, 360, 5, 1417, 850, 71)]
    [InlineData(25.4, 50.8, 300, 0, 300, 600, 0)]
    [InlineData(33.3, 20, 720, 3.5, 944, 567, 99)]
    public void A_size_in_mm_becomes_the_nearest_whole_pixels(
        double width, double height, double ppi, double border, int pixelsWide, int pixelsHigh, int borderPixels)
    {
        using var scratch = new Scratch();
        var made = Scratch.Prepare(scratch.Ramp("in.png", 400, 300), Scratch.Printer, Recipe(width, height, ppi) with { BorderMm = border }, scratch["out.tif"]);

        Assert.Null(made.Fault);
        using var file = Image.NewFromFile(scratch["out.tif"]);
        Assert.Equal((pixelsWide + (2 * borderPixels), pixelsHigh + (2 * borderPixels)), (file.Width, file.Height));
        Assert.Equal(ppi, file.Xres * 25.4, 2);
        Assert.Equal(ppi, file.Yres * 25.4, 2);
        Assert.Equal(Enums.BandFormat.Ushort, file.Format);
        Assert.Equal(Scratch.Printer, (byte[])file.Get("icc-profile-data"));
        Assert.Equal(["in.png", "out.tif"], scratch.Files.Order());
    }

    [Fact]
    public void A_printer_of_four_inks_gets_four_channels()
    {
        using var scratch = new Scratch();
        var made = Scratch.Prepare(scratch.Ramp("in.png", 100, 80), Scratch.CmykPrinter, Recipe(25.4, 20.32, 100), scratch["out.tif"]);

        Assert.Null(made.Fault);
        using var file = Image.NewFromFile(scratch["out.tif"]);
        Assert.Equal((4, Enums.Interpretation.Cmyk), (file.Bands, file.Interpretation));
    }

    [Theory]
    [InlineData("tif")]
    [InlineData("jpg")]
    public void All_eight_orientations_come_out_upright(string extension)
    {
        for (var orientation = 1; orientation <= 8; orientation++)
        {
            using var scratch = new Scratch();
            var picture = scratch.Ramp($"in.{extension}", 300, 200, orientation);
            var probed = ImageFile.Probe(picture).Value!;
            Assert.Equal(orientation, probed.Orientation);
            Assert.Equal(orientation < 5 ? (300, 200) : (200, 300), (probed.Width, probed.Height));

            var recipe = Recipe(probed.Width / 10.0 * 2.54, probed.Height / 10.0 * 2.54, 100);
            var made = Scratch.Prepare(picture, BuiltInProfiles.SRgb(), recipe, scratch["out.tif"]);

            Assert.True(made.Fault is null, $"{orientation}: {made.Fault?.Message}");
            using var file = Image.NewFromFile(scratch["out.tif"]);
            var corner = file[1, 1];
            // EXIF 2.3, tag 274: which of the stored picture's corners is seen at the top left.
            var (red, green) = orientation switch
            {
                1 or 5 => (0, 0),
                2 or 8 => (1, 0),
                3 or 7 => (1, 1),
                _ => (0, 1),
            };
            Assert.Equal(red, corner[0] / 65535, HalfATurnedCorner);
            Assert.Equal(green, corner[1] / 65535, HalfATurnedCorner);
        }
    }

    [Fact]
    public void The_profile_in_the_picture_is_honoured_even_when_it_swaps_channels()
    {
        using var scratch = new Scratch();
        var picture = Scratch.Given("rgb-to-gbr-test.png");
        var probed = ImageFile.Probe(picture).Value!;
        Assert.NotNull(probed.Profile);
        var recipe = Recipe(probed.Width / 300.0 * 25.4, probed.Height / 300.0 * 25.4, 300) with { BlackPointCompensation = false };

        var made = Scratch.Prepare(picture, BuiltInProfiles.SRgb(), recipe, scratch["out.tif"]);

        Assert.Null(made.Fault);
        File.WriteAllBytes(scratch["srgb.icc"], BuiltInProfiles.SRgb());
        using var opened = Image.NewFromFile(picture);
        using var flat = opened.HasAlpha() ? opened.Flatten(background: [255]) : opened.Copy();
        using var theirs = flat.IccTransform(scratch["srgb.icc"], embedded: true, intent: Enums.Intent.Relative, depth: 16, blackPointCompensation: false);
        using var ours = Image.NewFromFile(scratch["out.tif"]);
        Assert.Equal((theirs.Width, theirs.Height), (ours.Width, ours.Height));
        using var apart = (theirs.ExtractBand(0, n: 3) - ours).Abs();
        using var ignored = (flat.ExtractBand(0, n: 3) * 257.0 - ours).Abs();
        Assert.InRange(apart.Max(), 0, OtherEngineRounds);
        Assert.True(ignored.Max() > 20_000, "the profile makes no difference here: nothing was tested");
    }

    [Fact]
    public void Sixteen_bits_in_are_sixteen_bits_out()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 2_000, 2, deep: true);
        Assert.Equal(16, ImageFile.Probe(picture).Value!.Depth);

        var made = Scratch.Prepare(picture, BuiltInProfiles.SRgb(), Recipe(2_000 / 100.0 * 25.4, 2 / 100.0 * 25.4, 100), scratch["out.tif"]);

        Assert.Null(made.Fault);
        using var file = Image.NewFromFile(scratch["out.tif"]);
        var codes = file.WriteToMemory<ushort>();
        Assert.True(codes.Where((_, i) => i % 3 == 0).Distinct().Count() > 1_900);
    }

    [Fact]
    public void A_picture_too_high_for_one_strip_is_turned_whole()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 300, 3_000, orientation: 6);

        var made = Scratch.Prepare(picture, BuiltInProfiles.SRgb(), Recipe(3_000 / 10.0 * 2.54, 300 / 10.0 * 2.54, 100), scratch["out.tif"]);

        Assert.True(made.Fault is null, made.Fault?.Message);
        using var file = Image.NewFromFile(scratch["out.tif"]);
        Assert.Equal((3_000, 300), (file.Width, file.Height));
        // Turned clockwise to be looked at: what was at the bottom is now on the left (EXIF 2.3, tag 274).
        Assert.Equal(1, file[1, 1][1] / 65535, HalfATurnedCorner);
        Assert.Equal(0, file[2_998, 1][1] / 65535, HalfATurnedCorner);
    }

    [Theory]
    [InlineData(0.37)]
    [InlineData(0.9)]
    [InlineData(2.3)]
    public void Another_size_is_what_libvips_makes_in_light(double scale)
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 1_000, 500, deep: true);
        var (width, height) = ((int)(1_000 * scale), (int)(500 * scale));

        var made = Scratch.Prepare(
            picture, BuiltInProfiles.SRgb(), Recipe(width / 100.0 * 25.4, height / 100.0 * 25.4, 100) with { BlackPointCompensation = false }, scratch["out.tif"]);

        Assert.True(made.Fault is null, made.Fault?.Message);
        using var ours = Image.NewFromFile(scratch["out.tif"]);
        using var opened = Image.NewFromFile(picture);
        using var light = (opened / 65535.0).Pow(2.2);
        using var sized = light.Resize((double)width / 1_000, kernel: Enums.Kernel.Lanczos3, vscale: (double)height / 500);
        using var theirs = sized.Pow(1 / 2.2) * 65535.0;
        using var inside = theirs.Crop(10, 10, width - 20, height - 20);
        using var apart = (inside - ours.Crop(10, 10, width - 20, height - 20)).Abs();
        Assert.InRange(apart.Max(), 0, AnEighthOfAnEightBitCode);
    }

    [Fact]
    public void Sharpening_lifts_edges_and_leaves_even_areas_alone()
    {
        using var scratch = new Scratch();
        using (var dark = Image.Black(100, 100, bands: 3) + 80)
        using (var light = Image.Black(100, 100, bands: 3) + 160)
        using (var both = dark.Join(light, Enums.Direction.Horizontal).Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb))
        {
            both.Pngsave(scratch["in.png"]);
        }

        var made = Scratch.Prepare(
            scratch["in.png"], BuiltInProfiles.SRgb(), Recipe(200 / 360.0 * 25.4, 100 / 360.0 * 25.4, 360) with { HaloMm = 0.3, Sharpening = 0.5 }, scratch["out.tif"]);

        Assert.True(made.Fault is null, made.Fault?.Message);
        using var file = Image.NewFromFile(scratch["out.tif"]);
        Assert.Equal(80 * 257, file[10, 50][1], AnEighthOfAnEightBitCode);
        Assert.Equal(160 * 257, file[190, 50][1], AnEighthOfAnEightBitCode);
        Assert.True(file[99, 50][1] < (80 * 257) - 1_000 && file[100, 50][1] > (160 * 257) + 1_000);
    }

    [Fact]
    public void Eight_bits_keep_the_mean_of_a_soft_gradient_bare_paper_bare_and_are_the_same_again()
    {
        const int width = 400, height = 101, patch = 20; // an odd number of bytes before the directory
        const double tolerance = 0.03; // of a code: 4.6 standard deviations of the mean of 6,060 samples that lie half way between two codes
        using var scratch = new Scratch();
        DrawnTiff.Write(scratch["in.tif"], width, height, 3, 100, (_, row) =>
        {
            for (var i = 0; i < row.Length; i++)
            {
                row[i] = (ushort)(30_000 + (i / 3 * 2)); // three codes of 8 bits over the whole width
            }
        });
        var recipe = Recipe(width / 100.0 * 25.4, height / 100.0 * 25.4, 100) with { HaloMm = 0, BorderMm = 2.54, TrimMarks = false };
        Scratch.Prepare(scratch["in.tif"], BuiltInProfiles.SRgb(), recipe, scratch["16.tif"]);
        Scratch.Prepare(scratch["in.tif"], BuiltInProfiles.SRgb(), recipe with { EightBits = true }, scratch["8.tif"]);
        Scratch.Prepare(scratch["in.tif"], BuiltInProfiles.SRgb(), recipe with { EightBits = true }, scratch["again.tif"]);
        Assert.Equal(File.ReadAllBytes(scratch["8.tif"]), File.ReadAllBytes(scratch["again.tif"]));

        using var deep = Image.NewFromFile(scratch["16.tif"]);
        using var eight = Image.NewFromFile(scratch["8.tif"]);
        Assert.Equal((Enums.BandFormat.Uchar, deep.Width, deep.Height), (eight.Format, eight.Width, eight.Height));
        for (var x = 10; x + patch <= width; x += patch)
        {
            using var was = deep.Crop(x, 10, patch, height);
            using var now = eight.Crop(x, 10, patch, height);
            Assert.Equal(was.Avg() / 257, now.Avg(), tolerance);
        }

        Assert.Equal(255, eight.Crop(0, 0, eight.Width, 10).Min());
    }

    [Fact]
    public void A_stopped_run_leaves_nothing()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.png", 400, 300);
        File.WriteAllText(scratch["out.tif"], "what was there");
        using var stop = new CancellationTokenSource();
        var progress = new Stop(stop);

        Assert.ThrowsAny<OperationCanceledException>(() => PrintPreparation.Run(
            picture, Scratch.Printer, Recipe(100, 75, 200), scratch["out.tif"], progress, cancel: stop.Token));

        Assert.Equal(["in.png", "out.tif"], scratch.Files.Order());
        Assert.Equal("what was there", File.ReadAllText(scratch["out.tif"]));
    }

    [Theory]
    [InlineData(0, 100, 300, 0)]
    [InlineData(-10, 100, 300, 0)]
    [InlineData(100, double.NaN, 300, 0)]
    [InlineData(100, 100, 0, 0)]
    [InlineData(100, 100, double.PositiveInfinity, 0)]
    [InlineData(100, 100, 300, -1)]
    [InlineData(19_000, 19_000, 4_800, 0)]
    public void Impossible_sizes_are_refused(double width, double height, double ppi, double border)
    {
        using var scratch = new Scratch();
        var made = Scratch.Prepare(
            scratch.Ramp("in.png", 40, 30), Scratch.Printer, Recipe(width, height, ppi) with { BorderMm = border }, scratch["out.tif"]);

        Assert.NotNull(made.Fault);
        Assert.Equal(["in.png"], scratch.Files);
    }

    internal static PrintRecipe Recipe(double width, double height, double ppi) => new()
    {
        WidthMm = width,
        HeightMm = height,
        Ppi = ppi,
        Intent = RenderingIntent.RelativeColorimetric,
        HaloMm = 0,
    };

    private sealed class Stop(CancellationTokenSource source) : IProgress<double>
    {
        public void Report(double value) => source.Cancel();
    }
}
