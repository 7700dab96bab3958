using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room.People;

namespace Goodsheet.App.Tests.Profiles;

public sealed class InstrumentTest : IDisposable
{
    private static readonly PersonName Mira = new("Mira");

    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-instruments-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task An_instrument_is_kept_by_its_serial_and_a_dirty_white_tile_is_told_by_the_check_tile()
    {
        await using var room = await FreshRoom.InFileAsync();
        var (keep, read) = (new KeepInstrument(room.Store), new ReadTile(room.Store, clock));
        Assert.IsType<KeepInstrument.CannotBe>((await keep.RunAsync(new(" ", "Spot"), Cancel)).Refusal);
        Assert.IsType<KeepInstrument.CannotBe>((await keep.RunAsync(new("A1", "Spot", CertificateMonths: 0), Cancel)).Refusal);
        Assert.True((await keep.RunAsync(new("A1", "Spot"), Cancel)).Granted);
        Assert.True((await keep.RunAsync(new(" A1 ", "Spot by the window", "T9", new DateOnly(2025, 2, 1)), Cancel)).Granted);
        Assert.IsType<ReadTile.NoSuchInstrument>((await read.RunAsync(new(Mira, "B2", 95, 0, 0), Cancel)).Refusal);
        Assert.IsType<ReadTile.NotAColour>((await read.RunAsync(new(Mira, "A1", double.NaN, 0, 0), Cancel)).Refusal);

        Assert.True((await read.RunAsync(new(Mira, "A1", 95, 0, 0), Cancel)).Value!.State.IsSound);
        clock.Advance(TimeSpan.FromDays(7));
        Assert.True((await read.RunAsync(new(Mira, "A1", 95.1, 0, 0), Cancel)).Value!.State.IsSound);
        clock.Advance(TimeSpan.FromDays(7));
        var dirty = (await read.RunAsync(new(Mira, "A1", 96, 0, 0), Cancel)).Value!.State;
        Assert.False(dirty.IsSound);
        Assert.Contains("white tile", dirty.Words, StringComparison.Ordinal);

        var line = Assert.Single((await new ShowInstruments(room.Store, clock).RunAsync(Cancel)).Instruments);
        Assert.Equal(("Spot by the window", "T9", new DateOnly(2026, 2, 1), 3), (line.Instrument.Name, line.Instrument.Tile, line.Instrument.CertificateEnds!.Value, line.Tile.Count));
        Assert.Equal(dirty, line.State);
    }

    [Fact]
    public async Task Two_instruments_are_compared_by_a_chart_that_both_have_read_and_by_nothing_less()
    {
        var (first, second) = (Path.Combine(folder, "one.txt"), Path.Combine(folder, "two.txt"));
        var chart = Read(1);
        await WriteAsync(first, chart);
        await WriteAsync(second, chart with { Patches = [.. chart.Patches.Select(p => p with { Lab = new(p.Lab.L + 0.5, p.Lab.A, p.Lab.B - 0.3), Spectrum = null })] });
        var done = (await new CompareInstruments().RunAsync(new(first, second), Cancel)).Value!;
        Assert.Equal(chart.Averaged().Length, done.Between.Count);
        Assert.Equal((0.5, 0, -0.3), (Math.Round(done.Lighter, 2), Math.Round(done.Redder, 2) + 0.0, Math.Round(done.Yellower, 2)));

        await WriteAsync(second, chart with { Condition = MCondition.M2 });
        Assert.IsType<CompareInstruments.NotAlike>((await new CompareInstruments().RunAsync(new(first, second), Cancel)).Refusal);
        await WriteAsync(second, chart with { Patches = [.. chart.Patches.Select((p, i) => p with { Device = [0.11, 0.17, i / 40.0] })] });
        Assert.IsType<CompareInstruments.NothingShared>((await new CompareInstruments().RunAsync(new(first, second), Cancel)).Refusal);
        Assert.IsType<NoSuchFile>((await new CompareInstruments().RunAsync(new(first, second + "x"), Cancel)).Refusal);
    }

    private static Task WriteAsync(string path, MeasurementSet set) => File.WriteAllTextAsync(path, CgatsWriter.Write(set, "invented", "chart"), Cancel);

    private static MeasurementSet Read(int seed) => InventedPrinter.Read(
        InventedPrinter.On(new(), pigment: true), [.. Enumerable.Range(0, 27).Select(i => (double[])[i / 9 / 2.0, i / 3 % 3 / 2.0, i % 3 / 2.0])], seed);
}
