using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>Finished profiles of an invented printer, judged through Little CMS 2 (the reference engine), never by our own code alone.</summary>
public class ProfileMakerTest
{
    private const int Colours = 2_000;

    // The table's own share: interpolation between 33 nodes and 16-bit codes.
    private const double TableError = 0.15;

    // Mean there and back inside the gamut; colour.md of the field calls 0.15 good for 33 nodes made the usual way.
    private const double RoundTrip = 0.10;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(3, IccVersion.V4)]
    [InlineData(3, IccVersion.V2)]
    [InlineData(4, IccVersion.V4)]
    [InlineData(1, IccVersion.V4)]
    [InlineData(1, IccVersion.V2)]
    public void Says_what_the_printer_prints_and_finds_its_way_back(int channels, IccVersion version)
    {
        var printer = InventedConditions.Gloss(channels);
        var made = MadeProfiles.Gloss(channels, version);
        Assert.Empty(IccStructure.Findings(made));

        var device = Devices(channels);
        var expected = new double[Colours * 3];
        printer.Predict(device, expected);
        var absolute = Lcms.ToLab(device, made, RenderingIntent.AbsoluteColorimetric);
        Assert.InRange(Mean(expected, absolute), 0, TableError);

        var relative = Lcms.ToLab(device, made, RenderingIntent.RelativeColorimetric);
        var back = Lcms.FromLab(relative, made, RenderingIntent.RelativeColorimetric);
        var again = Lcms.ToLab(back, made, RenderingIntent.RelativeColorimetric);
        Assert.InRange(Mean(relative, again), 0, RoundTrip);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    public void Prints_paper_white_with_no_ink(int channels)
    {
        var made = MadeProfiles.Gloss(channels);
        foreach (var intent in (RenderingIntent[])[RenderingIntent.RelativeColorimetric, RenderingIntent.Perceptual])
        {
            var ink = Lcms.FromLab([100, 0, 0], made, intent);
            Assert.All(ink, value => Assert.Equal(channels == 4 ? 0 : 1, value, 5));
        }
    }

    [Fact]
    public void Keeps_the_ink_limit_everywhere()
    {
        const double limit = 3.0;
        var made = ProfileMaker.Make(InventedConditions.Gloss(4), new() { Name = "Invented", Created = MadeProfiles.Day, InkLimit = limit }, cancel: Cancel);
        var random = new Random(3);
        var lab = Enumerable.Range(0, Colours).SelectMany(_ => (double[])
            [100 * random.NextDouble(), (200 * random.NextDouble()) - 100, (200 * random.NextDouble()) - 100]).ToArray();
        foreach (var intent in (RenderingIntent[])[RenderingIntent.RelativeColorimetric, RenderingIntent.Perceptual])
        {
            Assert.All(Lcms.FromLab(lab, made.File, intent).Chunk(4), ink => Assert.InRange(ink.Sum(), 0, limit));
        }
    }

    [Fact]
    public void Stops_when_it_is_told_to()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() =>
            ProfileMaker.Make(InventedConditions.Gloss(), new() { Name = "Invented", Created = MadeProfiles.Day }, null, stop.Token));
    }

    private static double[] Devices(int channels)
    {
        var random = new Random(7);
        return [.. Enumerable.Range(0, Colours * channels).Select(_ => 0.02 + (0.96 * random.NextDouble()) * (channels == 4 ? 0.7 : 1))];
    }

    private static double Mean(double[] one, double[] other) => Enumerable.Range(0, one.Length / 3)
        .Average(i => CieDe2000.Between(At(one, i), At(other, i)).Value);

    private static Lab At(double[] rows, int i) => new(rows[3 * i], rows[(3 * i) + 1], rows[(3 * i) + 2]);
}
