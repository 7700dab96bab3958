using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>A profile of version 4 written once more as version 2 says the same; its perceptual black is as black.</summary>
public class OlderVersionTest
{
    private const int Grid = 17;

    // Both are read from tables of 16 bits; Lab of version 2 is a little coarser: dE00.
    private const double Encoding = 0.02;

    // The perceptual table is read between its nodes once more: dE00 on average, of tables of 17 nodes.
    private const double Resampling = 0.3;

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(4)]
    public void Says_what_the_newer_one_says(int channels)
    {
        var newer = Read(Made(channels, IccVersion.V4));
        var file = OlderVersion.Of(newer)!;
        Assert.Empty(IccStructure.Findings(file));
        var older = Read(file);
        Assert.Equal((2, newer.Description, newer.MediaWhite), (older.Header.Major, older.Description, older.MediaWhite));
        Assert.Equal(newer.Header.Created, older.Header.Created);
        foreach (var intent in (RenderingIntent[])[RenderingIntent.RelativeColorimetric, RenderingIntent.Saturation, RenderingIntent.AbsoluteColorimetric])
        {
            if (channels > 1 || intent is not RenderingIntent.Saturation) // of one channel it is the perceptual one
            {
                Assert.All(Devices(channels), d => Assert.InRange(CieDe2000.Between(Colour(newer, intent, d), Colour(older, intent, d)).Value, 0, Encoding));
                Assert.InRange(Asked().Average(lab => Apart(newer, newer, older, intent, lab)), 0, Encoding * 3); // there through both ways
            }
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void Its_perceptual_intent_prints_what_one_made_as_version_2_prints(int channels)
    {
        var newer = Read(Made(channels, IccVersion.V4));
        var (older, made) = (Read(OlderVersion.Of(newer)!), Read(Made(channels, IccVersion.V2)));
        Assert.InRange(Asked().Average(lab => Apart(made, made, older, RenderingIntent.Perceptual, lab)), 0, Resampling);
        Assert.All(Devices(channels).Take(20), d => Assert.InRange(CieDe2000.Between(Colour(made, RenderingIntent.Perceptual, d), Colour(older, RenderingIntent.Perceptual, d)).Value, 0, 1));
        // Black prints as black as it can, and paper stays paper.
        Assert.Equal(Device(made, RenderingIntent.Perceptual, new(0, 0, 0))[0], Device(older, RenderingIntent.Perceptual, new(0, 0, 0))[0], 0.02);
        Assert.All(Device(older, RenderingIntent.Perceptual, new(100, 0, 0)), d => Assert.Equal(1, d, 1e-4));
    }

    [Fact]
    public void Leaves_alone_what_is_old_already_or_of_another_form()
    {
        Assert.Null(OlderVersion.Of(Read(Made(3, IccVersion.V2))));
        Assert.Null(OlderVersion.Of(Read(BuiltInProfiles.SRgb())));
    }

    private static byte[] Made(int channels, IccVersion version) =>
        MadeProfiles.Gloss(channels, version, channels == 4 ? 9 : Grid);

    private static IccProfile Read(byte[] file) => IccProfile.Read(file).Profile!;

    // What the same colour prints by two profiles' tables, seen through a third.
    private static double Apart(IccProfile seen, IccProfile one, IccProfile other, RenderingIntent intent, Lab asked) =>
        CieDe2000.Between(Colour(seen, RenderingIntent.RelativeColorimetric, Device(one, intent, asked)), Colour(seen, RenderingIntent.RelativeColorimetric, Device(other, intent, asked))).Value;

    private static IEnumerable<double[]> Devices(int channels)
    {
        var random = new Random(2);
        return [.. Enumerable.Range(0, 100).Select(_ => Enumerable.Range(0, channels).Select(_ => random.NextDouble() * (channels == 4 ? 0.75 : 1)).ToArray())];
    }

    private static IEnumerable<Lab> Asked()
    {
        var random = new Random(4);
        return [.. Enumerable.Range(0, 200).Select(i => new Lab(random.NextDouble() * 100, i % 4 == 0 ? 0 : (random.NextDouble() * 80) - 40, i % 4 == 0 ? 0 : (random.NextDouble() * 80) - 40))];
    }

    private static Lab Colour(IccProfile profile, RenderingIntent intent, double[] device)
    {
        var lab = new double[3];
        ColourTransform.ToLab(profile, intent).Apply(device, lab);
        return new(lab[0], lab[1], lab[2]);
    }

    private static double[] Device(IccProfile profile, RenderingIntent intent, Lab lab)
    {
        var device = new double[profile.Header.Space.Channels()];
        ColourTransform.FromLab(profile, intent).Apply([lab.L, lab.A, lab.B], device);
        return device;
    }
}
