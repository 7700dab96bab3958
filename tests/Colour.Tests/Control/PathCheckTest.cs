using Goodsheet.Colour.Control;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.Colour.Tests.Control;

/// <summary>Strips of an invented printer behind an invented driver: no measurement of a real one is in here.</summary>
public sealed class PathCheckTest
{
    private static readonly InventedPaper Matte = new() { Surface = 0.02 };

    private static readonly Lazy<IccProfile> Room = new(() => Make(Matte));

    // What a driver knows is a general profile of some other paper.
    private static readonly Lazy<IccProfile> Drivers = new(() => Make(new() { Surface = 0.005, InkTake = 1.04, Warmth = 0.02 }));

    private static readonly double[][] Strip =
    [
        [1, 1, 1], [0, 1, 1], [1, 0, 1], [1, 1, 0], [0, 0, 1], [0, 1, 0], [1, 0, 0], [0, 0, 0], [0.25, 1, 1], [0.5, 1, 1], [1, 0.25, 1], [1, 0.5, 1],
        [1, 1, 0.25], [1, 1, 0.5], [0.25, 0.25, 0.25], [0.5, 0.5, 0.5], [0.75, 0.75, 0.75], [0.5, 0.5, 1], [0.5, 1, 0.5], [1, 0.5, 0.5], [0.25, 0.5, 0.75], [0.75, 0.5, 0.25],
    ];

    [Theory]
    [InlineData(true, RenderingIntent.RelativeColorimetric)]
    [InlineData(true, RenderingIntent.Perceptual)]
    [InlineData(false, RenderingIntent.RelativeColorimetric)]
    [InlineData(false, RenderingIntent.Perceptual)]
    public void Numbers_that_something_on_the_way_converted_again_are_told_from_numbers_that_were_not(bool knowsThePaper, RenderingIntent intent)
    {
        var driver = ColourTransform.Create(IccProfile.Read(BuiltInProfiles.SRgb()).Profile!, knowsThePaper ? Room.Value : Drivers.Value, intent, blackPointCompensation: true);
        double[] sent = [.. Strip.SelectMany(p => p)];
        var again = new double[sent.Length];
        driver.Apply(sent, again);
        var read = Read(PrinterDrift.None, [.. again.Chunk(3)], 2);
        var strip = read with { Patches = [.. read.Patches.Select((p, i) => p with { Device = [.. Strip[i]] })] };
        var found = PathCheck.Of(Room.Value, Read(PrinterDrift.None, Strip, 1), strip)!;
        Assert.True(found.ConvertedTwice, $"straight {found.Straight:0.00}, twice {found.Twice:0.00}");
        Assert.Equal("sRGB", found.Assumed);
    }

    [Fact]
    public void No_drift_is_taken_for_a_second_conversion()
    {
        foreach (var drift in (PrinterDrift[])[PrinterDrift.None, new(AllInk: 0.25), new(AllInk: -0.25), new(PaperTint: 0.2), new(CyanGain: 0.1), new(BlackGain: 0.1)])
        {
            Assert.False(PathCheck.Of(Room.Value, Read(PrinterDrift.None, Strip, 1), Read(drift, Strip, 2))!.ConvertedTwice);
        }
    }

    [Fact]
    public void A_strip_of_another_chart_says_nothing() =>
        Assert.Null(PathCheck.Of(Room.Value, Read(PrinterDrift.None, Strip, 1), Read(PrinterDrift.None, [[0.11, 0.22, 0.33]], 2)));

    private static IccProfile Make(InventedPaper paper) => IccProfile.Read(ProfileMaker.Make(
        InventedPrinter.On(paper, pigment: true), new() { Name = "Invented", Created = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero), Grid = 17 }).File).Profile!;

    private static MeasurementSet Read(PrinterDrift drift, double[][] device, int seed) =>
        InventedPrinter.Read(InventedPrinter.On(Matte, pigment: true, drift: drift), device, seed);
}
