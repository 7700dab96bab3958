using Goodsheet.App.Control;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.App.Tests.Control;

public sealed class CheckStripTest : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strip").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_strip_says_what_moved_and_what_a_correction_brings()
    {
        var done = (await CheckAsync(Read(PrinterDrift.None, 1), Read(new(AllInk: 0.05), 2))).Value!;
        Assert.Equal(DriftCause.AllInks, done.Cause);
        Assert.True(done.CanCorrect && done.After < done.Before);
        Assert.Contains("all inks alike", done.InWords, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_strip_that_did_not_move_is_left_alone()
    {
        var done = (await CheckAsync(Read(PrinterDrift.None, 1), Read(PrinterDrift.None, 2))).Value!;
        Assert.Equal(DriftCause.Nothing, done.Cause);
        Assert.False(done.CanCorrect);
    }

    [Fact]
    public async Task What_cannot_be_compared_is_refused_with_its_reason()
    {
        var (chart, strip) = (Read(PrinterDrift.None, 1), Read(PrinterDrift.None, 2));
        Assert.IsType<OtherLight>((await CheckAsync(chart, strip with { Condition = MCondition.M2 })).Refusal);
        Assert.IsType<NoSpectra>((await CheckAsync(chart, strip with { Patches = [.. strip.Patches.Select(p => p with { Spectrum = null })] })).Refusal);
        Assert.IsType<HalfAStrip>((await CheckAsync(chart, strip with { Patches = strip.Patches[..11] })).Refusal);
        Assert.IsType<AnotherChart>(
            (await CheckAsync(chart, strip with { Patches = [.. strip.Patches.Select((p, i) => p with { Device = [0.1, 0.2, i / 100.0] })] })).Refusal);
        Assert.IsType<NoCorners>((await CheckAsync(chart with { Patches = chart.Patches[1..] }, strip)).Refusal);
    }

    private async Task<Goodsheet.Room.Outcome<StripVerdict>> CheckAsync(MeasurementSet chart, MeasurementSet strip)
    {
        var (first, second) = (Path.Combine(folder, "chart.txt"), Path.Combine(folder, "strip.txt"));
        await WriteAsync(first, chart);
        await WriteAsync(second, strip);
        return await new CheckStrip().RunAsync(new(first, second));
    }

    private static async Task WriteAsync(string path, MeasurementSet set) => await File.WriteAllTextAsync(path, CgatsWriter.Write(set, "invented", "strip"));

    private static MeasurementSet Read(PrinterDrift drift, int seed) => InventedPrinter.Read(
        InventedPrinter.On(new() { Surface = 0.02 }, pigment: true, drift: drift),
        [
            [1, 1, 1], [0, 1, 1], [1, 0, 1], [1, 1, 0], [0, 0, 1], [0, 1, 0], [1, 0, 0], [0, 0, 0],
            .. Enumerable.Range(0, 12).Select(i => One(i % 3, (1 + (i / 3)) / 5.0)),
            .. Enumerable.Range(1, 4).Select(v => (double[])[v / 5.0, v / 5.0, v / 5.0]),
        ],
        seed);

    private static double[] One(int channel, double value)
    {
        double[] device = [1, 1, 1];
        device[channel] = value;
        return device;
    }
}
