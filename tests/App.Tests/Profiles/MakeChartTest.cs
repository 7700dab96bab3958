using NetVips;
using Goodsheet.App.Profiles;
using Goodsheet.App.Tests.Documents;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.App.Tests.Profiles;

/// <summary>Charts as files: what is on the sheets, read back by another reader of pictures.</summary>
public sealed class MakeChartTest : IDisposable
{
    private const double Ppi = 100;
    private const double SixDecimals = 0.5e-6; // half of the last that the page has

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-chart-test").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData(DeviceSpace.Rgb, ChartReadBy.Strip)]
    [InlineData(DeviceSpace.Cmyk, ChartReadBy.Patch)]
    [InlineData(DeviceSpace.Grey, ChartReadBy.Strip)]
    public async Task Every_patch_is_printed_at_its_place_with_its_own_numbers(DeviceSpace space, ChartReadBy by)
    {
        var sheet = new ChartSheet(210, 148, 8, 8, 1, by);
        var done = await new MakeChart().RunAsync(new(new("my chart", space, sheet, 2, Ppi), folder, []), Cancel);
        Assert.Equal(2 * sheet.Patches, done.Value!.Patches);
        Assert.Equal(["my-chart-1.tif", "my-chart-2.tif", "my-chart.pdf", "my-chart.txt"], done.Value.Files.Select(Path.GetFileName));

        var top = space is DeviceSpace.Cmyk ? 100.0 : 255;
        var rows = (await File.ReadAllLinesAsync(done.Value.Files[^1], Cancel)).Where(l => l.Length > 0 && char.IsDigit(l[0])).Select(l => l.Split('\t')).ToArray();
        for (var page = 0; page < 2; page++)
        {
            using var image = Image.NewFromFile(done.Value.Files[page]);
            var drawn = PdfReading.Fills(await File.ReadAllBytesAsync(done.Value.Files[2], Cancel), page + 1);
            Assert.Equal(Math.Round(210 / 25.4 * Ppi), image.Width);
            Assert.Equal(Ppi / 25.4, image.Xres, 3);
            for (var i = 0; i < sheet.Patches; i++)
            {
                var x = sheet.LeftMm + (i % sheet.PatchesInStrip * 9.0) + 4;
                var y = ChartSheet.TopMm + (i / sheet.PatchesInStrip * 9.0) + 4;
                var expected = rows[(page * sheet.Patches) + i].Skip(2).Select(v => Math.Round(double.Parse(v, System.Globalization.CultureInfo.InvariantCulture) / top * 65535));
                Assert.Equal(expected, image.Getpoint((int)(x / 25.4 * Ppi), (int)(y / 25.4 * Ppi)));
                // And in the PDF, level for level of 16 bits; grey there is equal parts of red, green and blue.
                var box = Assert.Single(drawn, d => x > d.X && x < d.X + d.Width && y > d.Y && y < d.Y + d.Height);
                Assert.Equal(space is DeviceSpace.Grey ? [.. Enumerable.Repeat(expected.Single(), 3)] : expected, box.Colour.Select(v => Math.Round(v * 65535)));
                Assert.All(box.Colour, v => Assert.Equal(Math.Round(v * 65535) / 65535, v, SixDecimals));
                Assert.Equal((8, 8), (Math.Round(box.Width, 2), Math.Round(box.Height, 2)));
            }
        }
    }

    [Fact]
    public async Task A_control_strip_fits_the_margin_and_is_made_of_patches_of_its_chart()
    {
        var chart = Path.Combine(folder, "chart.txt");
        var read = InventedPrinter.Read(InventedPrinter.On(new() { Surface = 0.02 }, pigment: true, drift: PrinterDrift.None), [.. ChartDesign.First(DeviceSpace.Rgb, 120)], 1);
        await File.WriteAllTextAsync(chart, CgatsWriter.Write(read, "invented", "invented"), Cancel);
        var asked = new Asked("strip", DeviceSpace.Rgb, new(250, 15, 8, 8, 0.5, ChartReadBy.Strip, Band: true), 1, Ppi, Kind: ChartKind.Strip);
        var done = (await new MakeChart().RunAsync(new(asked, folder, [chart]), Cancel)).Value!;
        Assert.InRange(done.Patches, 24, 48);
        using var image = Image.NewFromFile(done.Files[0]);
        Assert.Equal((Math.Round(250 / 25.4 * Ppi), Math.Round(15 / 25.4 * Ppi)), (image.Width, image.Height));
        var known = read.Patches.Select(p => string.Join(' ', p.Device.Select(v => Math.Round(v * 255)))).ToHashSet();
        var rows = (await File.ReadAllLinesAsync(done.Files[^1], Cancel)).Where(l => l.Length > 0 && char.IsDigit(l[0])).ToArray();
        Assert.Equal(done.Patches, rows.Length);
        Assert.All(rows, r => Assert.Contains(string.Join(' ', r.Split('\t')[2..]), known));

        Assert.IsType<NoSuchChart>((await new MakeChart().RunAsync(new(asked with { Name = "short", Sheet = asked.Sheet with { WidthMm = 120 } }, folder, [chart]), Cancel)).Refusal);
        Assert.IsType<MakeChart.NeedsAReading>((await new MakeChart().RunAsync(new(asked with { Name = "none" }, folder, []), Cancel)).Refusal);
    }

    [Fact]
    public async Task Writes_over_nothing_and_leaves_nothing_half()
    {
        var asked = new Asked("again", DeviceSpace.Rgb, new(210, 148, 8, 8, 1, ChartReadBy.Strip), 1, Ppi);
        Assert.True((await new MakeChart().RunAsync(new(asked, folder, []), Cancel)).Granted);
        var before = Directory.GetFiles(folder).Length;
        Assert.IsType<MakeChart.AlreadyThere>((await new MakeChart().RunAsync(new(asked, folder, []), Cancel)).Refusal);
        Assert.IsType<NoSuchChart>((await new MakeChart().RunAsync(new(asked with { Name = "b", Sheets = 0 }, folder, []), Cancel)).Refusal);
        Assert.IsType<NoSuchChart>((await new MakeChart().RunAsync(new(asked with { Name = "b", Patches = 5_000 }, folder, []), Cancel)).Refusal);
        Assert.IsType<NoSuchChart>((await new MakeChart().RunAsync(new(asked with { Name = "b", Sheet = asked.Sheet with { PatchAlongMm = 100 } }, folder, []), Cancel)).Refusal);
        Assert.IsType<MakeChart.NoSuchFolder>((await new MakeChart().RunAsync(new(asked, Path.Combine(folder, "none"), []), Cancel)).Refusal);
        Assert.Equal(before, Directory.GetFiles(folder).Length);
    }

    [Fact]
    public async Task A_name_stays_within_the_folder()
    {
        var asked = new Asked("../../out", DeviceSpace.Rgb, new(210, 148, 8, 8, 1, ChartReadBy.Strip), 1, Ppi);
        var done = await new MakeChart().RunAsync(new(asked, folder, []), Cancel);
        Assert.All(done.Value!.Files, f => Assert.Equal(folder, Path.GetDirectoryName(f)));
    }
}
