using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Files;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Tests.Profiles;

/// <summary>Readings of an invented printer, brought into a room and put together.</summary>
public sealed class ReadingsTest : IAsyncLifetime
{
    private static readonly PersonName Mira = new("Mira");

    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private FreshRoom room = null!;
    private FileShelf files = null!;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        files = new(Path.Combine(room.Folder, "files"));
    }

    public ValueTask DisposeAsync() => room.DisposeAsync();

    [Fact]
    public async Task A_file_with_two_conditions_makes_two_readings_and_tells_the_brightener()
    {
        var done = await BringInAsync(Cxf(), "chart.cxf");
        await using var db = room.Store.Open();
        var readings = await db.Readings.OrderBy(r => r.Number).ToListAsync(Cancel);
        Assert.Equal(["M2", "M0"], readings.Select(r => r.MCondition));
        Assert.Equal(done, readings[1].Number);
        Assert.NotNull((await db.Papers.SingleAsync(p => p.Code == FreshRoom.Cotton, Cancel)).BrightenerMeasured);
    }

    [Fact]
    public async Task Another_paper_and_another_black_are_told_from_the_reading_before()
    {
        await BringInAsync(Cgats(Chart(1)), "first.txt");
        var (_, calm) = await FindingsAsync(await BringInAsync(Cgats(Chart(2)), "second.txt"));
        Assert.DoesNotContain(calm, f => f.Contains("another paper", StringComparison.Ordinal) || f.Contains("other black", StringComparison.Ordinal));

        var paper = Chart(3);
        var (_, found) = await FindingsAsync(await BringInAsync(Cgats(paper with { Patches = [.. paper.Patches.Select(p => p with { Lab = p.Lab with { B = p.Lab.B + 6 }, Spectrum = null })] }), "third.txt"));
        Assert.Contains(found, f => f.Contains("another paper, the other side", StringComparison.Ordinal));

        var black = Chart(4);
        var (_, faint) = await FindingsAsync(await BringInAsync(Cgats(black with
        {
            Patches = [.. black.Patches.Select(p => p.Device.All(v => v == 0) ? p with { Lab = p.Lab with { L = p.Lab.L + 16 }, Spectrum = null } : p with { Spectrum = null })],
        }), "fourth.txt"));
        Assert.Contains(faint, f => f.Contains("the other black was in", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_ink_that_was_gone_for_a_while_is_told_with_its_places_and_what_to_do_before_any_profile()
    {
        var chart = Chart(5);
        var without = InventedPrinter.Read(
            InventedPrinter.On(new() { Surface = 0.02 }, pigment: true, drift: PrinterDrift.None), [.. chart.Patches.Select(p => p.Device.SetItem(1, 1).ToArray())], 5);
        var (_, found) = await FindingsAsync(await BringInAsync(Cgats(chart with { Patches = [.. chart.Patches.Select((p, i) => i is < 50 or >= 80 ? p : p with { Lab = without.Patches[i].Lab, Spectrum = null })] }), "nozzle.txt"));
        var finding = Assert.Single(found, f => f.Contains("magenta", StringComparison.Ordinal));
        Assert.Matches("^From patch .+ to .+ what green takes away \\(magenta ink\\) did not print: off by [0-9.]+ dE00. Check the nozzles and the ink, and print the chart again", finding);
    }

    [Fact]
    public async Task Two_parts_of_a_chart_become_one_reading_once()
    {
        var chart = Chart(1);
        var first = await BringInAsync(Cgats(chart with { Patches = chart.Patches[..60] }), "one.txt");
        var second = await BringInAsync(Cgats(chart with { Patches = chart.Patches[60..] }), "two.txt");
        var merge = new MergeRoomReadings(room.Store, files, clock);
        var done = (await merge.RunAsync(new(Mira, [first, second]), Cancel)).Value!.Reading;
        Assert.Equal(done, (await merge.RunAsync(new(Mira, [second, first]), Cancel)).Value!.Reading);
        var (reading, _) = await FindingsAsync(done);
        Assert.Equal((chart.Patches.Length, "readings 1, 2 together.txt"), (reading.Patches, reading.FileName));
        Assert.IsType<NeedsTwo>((await merge.RunAsync(new(Mira, [first]), Cancel)).Refusal);
    }

    [Fact]
    public async Task Files_of_different_inks_are_not_put_together_and_nothing_is_written()
    {
        var (one, other, output) = (Path.Combine(room.Folder, "a.txt"), Path.Combine(room.Folder, "b.txt"), Path.Combine(room.Folder, "c.txt"));
        await File.WriteAllTextAsync(one, Cgats(Chart(1)), Cancel);
        await File.WriteAllTextAsync(other, "GRAY_K,LAB_L,LAB_A,LAB_B\n0,5,0,0\n255,95,0,0\n", Cancel);
        Assert.IsType<NotOneChart>((await new MergeReadings().RunAsync(new([one, other], output), Cancel)).Refusal);
        Assert.False(File.Exists(output));

        await File.WriteAllTextAsync(other, Cgats(Chart(2)), Cancel);
        var done = (await new MergeReadings().RunAsync(new([one, other], output), Cancel)).Value!;
        Assert.Equal(Chart(1).Patches.Length, MeasurementFile.Read(await File.ReadAllBytesAsync(output, Cancel)).Set!.Patches.Length);
        Assert.InRange(done.Noise!.Value, 0.01, 1);
    }

    private async Task<int> BringInAsync(string text, string name)
    {
        using var bytes = new MemoryStream(Encoding.UTF8.GetBytes(text));
        var hash = (await files.KeepAsync(bytes, Cancel)).Hash;
        return (await new BringInReading(room.Store, files, clock).RunAsync(new(Mira, hash, name, FreshRoom.Cotton, FreshRoom.Heron, "Art"), Cancel)).Value!.Reading;
    }

    private async Task<(Reading Reading, List<string> Findings)> FindingsAsync(int number)
    {
        await using var db = room.Store.Open();
        var reading = await db.Readings.SingleAsync(r => r.Number == number, Cancel);
        return (reading, JsonSerializer.Deserialize<List<string>>(reading.Findings)!);
    }

    private static string Cgats(MeasurementSet set) => CgatsWriter.Write(set, "invented", "invented");

    private static MeasurementSet Chart(int seed) => InventedPrinter.Read(
        InventedPrinter.On(new() { Surface = 0.02 }, pigment: true, drift: PrinterDrift.None), [.. ChartDesign.First(DeviceSpace.Rgb, 120)], seed);

    // Five greys, with and without ultraviolet: invented.
    private static string Cxf()
    {
        var text = new StringBuilder("<CxF><Resources><ObjectCollection>");
        for (var i = 0; i < 5; i++)
        {
            var grey = FormattableString.Invariant($"{0.05 + (0.2 * i):0.00}");
            var values = string.Join(' ', Enumerable.Repeat(grey, 36));
            var lit = string.Join(' ', Enumerable.Range(0, 36).Select(k => k is > 4 and < 9 && i == 4 ? "1.0" : grey));
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"<Object Name=\"P{i}\"><ColorValues><ReflectanceSpectrum ColorSpecification=\"a\" StartWL=\"380\">{lit}</ReflectanceSpectrum><ReflectanceSpectrum ColorSpecification=\"b\" StartWL=\"380\">{values}</ReflectanceSpectrum></ColorValues><DeviceColorValues><ColorRGB><MaxRange>4</MaxRange><R>{i}</R><G>{i}</G><B>{i}</B></ColorRGB></DeviceColorValues></Object>");
        }

        return text + "</ObjectCollection><ColorSpecificationCollection><ColorSpecification Id=\"a\"><DeviceIllumination>M0</DeviceIllumination></ColorSpecification><ColorSpecification Id=\"b\"><DeviceIllumination>M2</DeviceIllumination></ColorSpecification></ColorSpecificationCollection></Resources></CxF>";
    }
}
