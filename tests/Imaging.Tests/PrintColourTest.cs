using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Tests.Shared;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>The colours in the print-ready file itself, read back by libtiff, beside Little CMS 2 (16 bits, no optimisation, no cache).</summary>
public class PrintColourTest
{
    private const int TwoCodes = 2; // of 65535: the goal of the product
    private const int Width = 240;
    private const int Height = 160;
    private const double Ppi = 254;

    private static readonly Dictionary<string, byte[]?> Pictures = new()
    {
        ["no profile"] = null,
        ["sRGB"] = BuiltInProfiles.SRgb(),
        ["wide RGB"] = BuiltInProfiles.WideRgb(),
        ["another printer's RGB"] = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb, gridToPcs: 17), IccVersion.V2),
        ["grey"] = BuiltInProfiles.Grey(),
        ["CMYK"] = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Cmyk, gridToPcs: 7), IccVersion.V2),
    };

    private static readonly Dictionary<string, byte[]> Papers = new()
    {
        ["RGB printer, version 4"] = Scratch.Printer,
        ["RGB printer, version 2"] = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), IccVersion.V2),
        ["CMYK printer, version 4"] = Scratch.CmykPrinter,
    };

    public static TheoryData<string, string, RenderingIntent, bool> Pairs() => new(
        from picture in Pictures.Keys
        from paper in Papers.Keys
        from way in ((RenderingIntent, bool)[])[(RenderingIntent.RelativeColorimetric, true), (RenderingIntent.RelativeColorimetric, false), (RenderingIntent.Perceptual, true)]
        select (picture, paper, way.Item1, way.Item2));

    [Theory]
    [MemberData(nameof(Pairs))]
    public void In_the_file_are_the_reference_engine_s_within_two_codes(string picture, string paper, RenderingIntent intent, bool compensate)
    {
        using var scratch = new Scratch();
        var (source, printer) = (Pictures[picture], Papers[paper]);
        var channels = source is null ? 3 : Scratch.Read(source).Header.Space.Channels();
        var pixels = Noise(channels);
        Keep(pixels, channels, source, scratch["in.tif"]);

        var recipe = PrintPreparationTest.Recipe(Width / 10.0, Height / 10.0, Ppi) with { Intent = intent, BlackPointCompensation = compensate, BorderMm = 1 };
        var made = Scratch.Prepare(scratch["in.tif"], printer, recipe, scratch["out.tif"]);

        Assert.True(made.Fault is null, made.Fault?.Message);
        using var file = Image.NewFromFile(scratch["out.tif"]);
        using var inside = file.Crop(10, 10, Width, Height); // the border is a millimetre, ten pixels
        var ours = inside.WriteToMemory<ushort>();
        var theirs = Lcms.Convert(pixels, source ?? BuiltInProfiles.SRgb(), printer, intent, compensate);
        var apart = ours.Zip(theirs, (a, b) => Math.Abs(a - b)).Max();
        Assert.True(apart <= TwoCodes, $"{apart} codes apart");
    }

    private static void Keep(ushort[] pixels, int channels, byte[]? profile, string path)
    {
        using var memory = Image.NewFromMemory(pixels, Width, Height, channels, Enums.BandFormat.Ushort);
        using var named = memory.Copy(interpretation: channels switch { 1 => Enums.Interpretation.Grey16, 3 => Enums.Interpretation.Rgb16, _ => Enums.Interpretation.Cmyk });
        using var with = profile is null ? named.Copy() : named.Mutate(m => m.Set(GValue.BlobType, "icc-profile-data", profile));
        with.WriteToFile(path);
    }

    // Noise, and in it corners, codes of 8 bits, darks and greys.
    private static ushort[] Noise(int channels)
    {
        var random = new Random(20261125);
        var pixels = new ushort[Width * Height * channels];
        for (var i = 0; i < pixels.Length; i++)
        {
            pixels[i] = (ushort)((i / channels % 6) switch
            {
                0 => random.Next(2) * 65_535,
                1 => random.Next(256) * 257,
                2 => random.Next(4_000),
                3 when i % channels > 0 => pixels[i - 1],
                _ => random.Next(65_536),
            });
        }

        return pixels;
    }
}
