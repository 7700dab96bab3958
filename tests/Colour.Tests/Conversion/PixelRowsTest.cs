using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Conversion;

/// <summary>Pixels of 16 bits beside Little CMS 2, 16 bits in and out, without its optimisations and its cache.</summary>
public class PixelRowsTest
{
    private const int TwoCodes = 2; // of 65535: once in a hundred thousand a step falls to the other side of a half
    private const int Count = 20_000;

    private static readonly Dictionary<string, byte[]> Profiles = new()
    {
        ["sRGB"] = BuiltInProfiles.SRgb(),
        ["wide RGB"] = BuiltInProfiles.WideRgb(),
        ["grey"] = BuiltInProfiles.Grey(),
        ["RGB tables, version 2"] = Invented(ColourSpace.Rgb, IccVersion.V2),
        ["RGB tables, version 4"] = Invented(ColourSpace.Rgb, IccVersion.V4),
        ["CMYK tables, version 2"] = Invented(ColourSpace.Cmyk, IccVersion.V2),
        ["CMYK tables, version 4"] = Invented(ColourSpace.Cmyk, IccVersion.V4),
    };

    public static TheoryData<string, string> Pairs() =>
        new(Profiles.Keys.SelectMany(_ => Profiles.Keys.Where(k => k.Contains("tables")), (from, to) => (from, to)));

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Come_out_as_the_reference_engine_s_within_two_codes(string from, string to)
    {
        var (source, destination) = (Profiles[from], Profiles[to]);
        foreach (var intent in (RenderingIntent[])[RenderingIntent.RelativeColorimetric, RenderingIntent.Perceptual])
        {
            foreach (var compensate in (bool[])[false, true])
            {
                var rows = new PixelRows(ColourTransform.Create(
                    IccProfile.Read(source).Profile!, IccProfile.Read(destination).Profile!, intent, compensate));
                var pixels = Pixels(rows.Inputs);
                var ours = new ushort[Count * rows.Outputs];
                rows.Convert(pixels, ours);
                var theirs = Lcms.Convert((ReadOnlySpan<ushort>)pixels, source, destination, intent, compensate);
                var apart = ours.Zip(theirs, (a, b) => Math.Abs(a - b)).Max();
                Assert.True(apart <= TwoCodes, $"{intent}, black-point compensation {compensate}: {apart} codes apart");
            }
        }
    }

    [Fact]
    public void Unlike_lengths_are_the_caller_s_bug()
    {
        var rows = new PixelRows(ColourTransform.Create(
            IccProfile.Read(BuiltInProfiles.SRgb()).Profile!, IccProfile.Read(BuiltInProfiles.WideRgb()).Profile!, RenderingIntent.RelativeColorimetric, false));
        Assert.Throws<ArgumentException>(() => rows.Convert(new ushort[4], new ushort[4]));
        Assert.Throws<ArgumentException>(() => rows.Convert(new ushort[3], new ushort[6]));
    }

    private static byte[] Invented(ColourSpace space, IccVersion version) =>
        IccProfileWriter.Write(InventedPrinters.Profile(space, gridToPcs: space == ColourSpace.Cmyk ? 7 : 17), version);

    // Random pixels, and among them corners, darks, greys and codes of 8 bits.
    private static ushort[] Pixels(int channels)
    {
        var random = new Random(20260415);
        var pixels = new ushort[Count * channels];
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
