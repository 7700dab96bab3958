using Goodsheet.App.Control;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Tests.Control;

/// <summary>A black that does not belong on the coat, both ways and on every class, from one strip of the spectral printer.</summary>
public sealed class WrongBlackTest : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-black-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    // Invented papers; the surface bounds the density of black as it does on each class.
    public static TheoryData<PaperClass, double, double> Classes => new()
    {
        { PaperClass.Gloss, 0.003, 1.08 }, { PaperClass.Satin, 0.005, 1 }, { PaperClass.Pearl, 0.005, 1.04 }, { PaperClass.Matte, 0.023, 0.9 },
        { PaperClass.SmoothFineArt, 0.019, 0.95 }, { PaperClass.TexturedFineArt, 0.025, 0.9 }, { PaperClass.Baryta, 0.004, 1.05 }, { PaperClass.Canvas, 0.026, 0.92 },
    };

    // Photo black on a dull coat loses about .25 of density, matte black on a shiny one about .4: common practice, no source.
    [Theory]
    [MemberData(nameof(Classes))]
    public async Task Is_told_from_one_strip_whether_the_strip_has_it_or_the_chart_had(PaperClass paper, double surface, double inkTake)
    {
        var (loss, right) = (surface > 0.01 ? 0.25 : 0.4, Read(surface, inkTake, PrinterDrift.None, 1));
        var black = 0.0;
        while (DMax(right) - DMax(Read(surface, inkTake, new(BlackInk: black), 2)) < loss && black > -0.9)
        {
            black -= 0.05;
        }

        var wrong = Read(surface, inkTake, new(BlackInk: black), 2);
        var strip = await CheckAsync(right, wrong);
        Assert.True(strip.WrongBlack, $"{paper}: {DMax(right):0.00} to {DMax(wrong):0.00}");
        Assert.Contains("wrong black", strip.InWords, StringComparison.Ordinal);
        Assert.Contains("Nothing is to be corrected", strip.Advice, StringComparison.Ordinal);
        Assert.Contains(StripRemedy.Of(strip, moved: true), r => r.IsAdvised && !r.Corrects);
        Assert.True((await CheckAsync(wrong, right)).WrongBlack, $"{paper}, the chart had it");
    }

    [Theory]
    [MemberData(nameof(Classes))]
    public async Task Is_not_cried_over_what_drifts(PaperClass paper, double surface, double inkTake)
    {
        var right = Read(surface, inkTake, PrinterDrift.None, 1);
        foreach (var drift in (PrinterDrift[])[PrinterDrift.None, new(AllInk: -0.06), new(PaperTint: 0.12), new(BlackGain: 0.05), new(BlackGain: -0.05)])
        {
            Assert.False((await CheckAsync(right, Read(surface, inkTake, drift, 3))).WrongBlack, $"{paper}: {drift}");
        }
    }

    private async Task<StripVerdict> CheckAsync(MeasurementSet chart, MeasurementSet strip)
    {
        var (first, second) = (Path.Combine(folder, "chart.txt"), Path.Combine(folder, "strip.txt"));
        await File.WriteAllTextAsync(first, CgatsWriter.Write(chart, "invented", "chart"), TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(second, CgatsWriter.Write(strip, "invented", "strip"), TestContext.Current.CancellationToken);
        return (await new CheckStrip().RunAsync(new(first, second), TestContext.Current.CancellationToken)).Value!;
    }

    private static double DMax(MeasurementSet set) =>
        Colour.Density.Densities.FromLab(set.Patches.First(p => p.Device.All(d => d == 0)).Lab);

    private static MeasurementSet Read(double surface, double inkTake, PrinterDrift drift, int seed) => InventedPrinter.Read(
        InventedPrinter.On(new() { Surface = surface, InkTake = inkTake }, pigment: true, drift: drift),
        [
            [1, 1, 1], [0, 1, 1], [1, 0, 1], [1, 1, 0], [0, 0, 1], [0, 1, 0], [1, 0, 0], [0, 0, 0],
            .. from channel in Enumerable.Range(0, 3) from value in (double[])[0.25, 0.5, 0.75] select One(channel, value),
            .. ((double[])[0.2, 0.4, 0.6, 0.8]).Select(v => (double[])[v, v, v]), [0.5, 0.5, 1], [0.5, 1, 0.5], [1, 0.5, 0.5],
        ],
        seed);

    private static double[] One(int channel, double value)
    {
        double[] device = [1, 1, 1];
        device[channel] = value;
        return device;
    }
}
