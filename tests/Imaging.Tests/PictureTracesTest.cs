using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>A drawn scene, worked on as pictures are before they are brought in: packed, noisy, stretched.</summary>
public class PictureTracesTest
{
    private const int Width = 1_200;
    private const int Height = 800;

    // The limits that orders are judged by: see TraceCheck.
    private const double SeenStep = 1;
    private const double EnoughTones = 0.65;

    private const double SigmaWithin = 0.25; // of it: an evenest quarter lies a little under the whole

    private static readonly IccProfile Own = Scratch.Read(BuiltInProfiles.SRgb());

    [Fact]
    public void A_soft_scene_has_none()
    {
        var found = Of(Scene(), (scene, path) => scene.Pngsave(path));
        Assert.InRange(found.BlockStep, 0, SeenStep / 10);
        Assert.InRange(found.Grain, 0, 1.5);
        Assert.True(found.TonesUsed > 0.95);
    }

    [Theory]
    [InlineData(10, true)]
    [InlineData(25, true)]
    [InlineData(90, false)]
    [InlineData(97, false)]
    public void Blocks_are_found_in_what_was_packed_hard_and_nowhere_else(int quality, bool blocks)
    {
        var found = Of(Scene(), (scene, path) => scene.Jpegsave(path, q: quality), "jpg");
        Assert.True(found.BlockStep > SeenStep == blocks, $"{found.BlockStep:0.00}");
    }

    [Fact]
    public void Blocks_are_found_wherever_the_picture_was_cut_after_it_was_packed()
    {
        for (var cut = 0; cut < 8; cut++)
        {
            var found = Of(Scene(), (scene, path) =>
            {
                using var packed = Image.NewFromBuffer(scene.JpegsaveBuffer(q: 10));
                using var rest = packed.Crop(cut, 3, Width - cut, Height - 3);
                rest.Pngsave(path);
            });
            Assert.True(found.BlockStep > SeenStep, $"cut at {cut}: {found.BlockStep:0.00}");
        }
    }

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    public void Grain_is_told_by_its_standard_deviation(double sigma)
    {
        var found = Of(Scene(), (scene, path) =>
        {
            using var noise = Image.Gaussnoise(Width, Height, sigma: sigma, mean: 0, seed: 26);
            using var noisy = (scene + noise).Rint().Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
            noisy.Pngsave(path);
        });
        Assert.InRange(found.Grain / sigma, 1 - SigmaWithin, 1 + SigmaWithin);
    }

    [Fact]
    public void Tones_are_missing_when_the_contrast_was_raised_in_8_bits()
    {
        var found = Of(Scene(), (scene, path) =>
        {
            using var raised = (((scene * 0.5) + 64).Cast(Enums.BandFormat.Uchar) - 64) * 2; // half the codes are gone
            using var codes = raised.Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
            codes.Pngsave(path);
        });
        Assert.InRange(found.TonesUsed, 0.4, EnoughTones);
    }

    [Fact]
    public void A_drawing_of_few_even_areas_is_not_said_to_lack_tones()
    {
        var found = Of(Scene(), (_, path) =>
        {
            using var bands = (Image.Xyz(Width, Height)[0] / 200).Floor() * 40;
            using var codes = bands.Bandjoin(bands, bands).Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
            codes.Pngsave(path);
        });
        Assert.Equal(1, found.TonesUsed);
    }

    private static PictureTraces Of(Image scene, Action<Image, string> keep, string extension = "png")
    {
        using var scratch = new Scratch();
        using (scene)
        {
            keep(scene, scratch[$"in.{extension}"]);
        }

        var looked = Scratch.Look(scratch[$"in.{extension}"], Own);
        Assert.True(looked.Fault is null, looked.Fault?.Message);
        return looked.Value!.Traces;
    }

    // A sky, hills with an edge of two pixels, discs before them, a little grain: sharp as a lens is, not more.
    private static Image Scene()
    {
        var random = new Random(20261126);
        var discs = Enumerable.Range(0, 40).Select(_ => (X: random.Next(Width), Y: random.Next(Height), R: random.Next(12, 90), Tone: random.Next(40, 215))).ToArray();
        var bytes = new byte[Width * Height * 3];
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                var tone = 90.0 + (y * 130.0 / Height) + (12 * Math.Sin(x / 97.0));
                var hills = 1 / (1 + Math.Exp(-(y - 500 - (60 * Math.Sin(x / 140.0))) / 0.8));
                tone += hills * ((10 * Math.Sin((x + y) / 15.0)) - 120);
                foreach (var disc in discs)
                {
                    var inside = disc.R - Math.Sqrt(((x - disc.X) * (x - disc.X)) + ((y - disc.Y) * (y - disc.Y)));
                    if (inside > -6)
                    {
                        tone += 1 / (1 + Math.Exp(-inside / 0.8)) * (disc.Tone + (inside / 6) - tone);
                    }
                }

                var grain = random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5;
                for (var k = 0; k < 3; k++)
                {
                    bytes[(((y * Width) + x) * 3) + k] = (byte)Math.Clamp(tone + (k * 6) - 6 + grain + 0.5, 1, 254);
                }
            }
        }

        using var raw = Image.NewFromMemory(bytes, Width, Height, 3, Enums.BandFormat.Uchar);
        return raw.Copy(interpretation: Enums.Interpretation.Srgb);
    }
}
