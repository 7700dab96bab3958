using System.Collections.Immutable;
using System.Text;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Charts;

/// <summary>Charts to be printed: what is on them, and in which order.</summary>
public class ChartTest
{
    // A4 across, patches of 8 mm with half a millimetre between, read in strips.
    private static readonly ChartSheet A4 = new(297, 210, 8, 8, 0.5, ChartReadBy.Strip);

    [Theory]
    [InlineData(DeviceSpace.Rgb, 32)]
    [InlineData(DeviceSpace.Rgb, 100)]
    [InlineData(DeviceSpace.Rgb, 900)]
    [InlineData(DeviceSpace.Cmyk, 600)]
    [InlineData(DeviceSpace.Grey, 40)]
    public void Has_as_many_patches_as_asked_with_paper_black_and_greys_among_them(DeviceSpace space, int count)
    {
        var devices = ChartDesign.First(space, count);
        Assert.Equal(count, devices.Count);
        var (paper, full) = space is DeviceSpace.Cmyk ? ([0.0, 0, 0, 0], [0.0, 0, 0, 1]) : (devices[0].Select(_ => 1.0).ToArray(), devices[0].Select(_ => 0.0).ToArray());
        Assert.Contains(devices, d => d.SequenceEqual(paper));
        Assert.Contains(devices, d => d.SequenceEqual(full));
        if (space is DeviceSpace.Rgb)
        {
            Assert.True(devices.Count(d => d.Distinct().Count() == 1) >= 3);
            Assert.Equal(8, devices.Where(d => d.All(v => v is 0 or 1)).DistinctBy(d => string.Join(' ', d)).Count());
        }
    }

    [Theory]
    [InlineData(DeviceSpace.Grey, 34)]
    [InlineData(DeviceSpace.Rgb, 79)]
    [InlineData(DeviceSpace.Cmyk, 89)]
    public void A_test_sheet_goes_to_full_ink_along_every_ramp_and_has_its_ends_twice(DeviceSpace space, int count)
    {
        var ramps = ChartDesign.Ramps(space);
        Assert.Equal(count, ramps.Count);
        Assert.All(ramps.SelectMany(r => r), v => Assert.InRange(v, 0, 1));
        var ends = ramps.Where(r => r.All(v => v is 0 or 1)).GroupBy(r => string.Join(' ', r)).ToList();
        Assert.Equal(space switch { DeviceSpace.Grey => 2, DeviceSpace.Rgb => 8, _ => 9 }, ends.Count);
        Assert.All(ends, e => Assert.Equal(2, e.Count()));
        Assert.Equal(count - ends.Count, ramps.Select(r => string.Join(' ', r)).Distinct().Count());
    }

    [Fact]
    public void Repeats_a_few_patches_so_that_noise_can_be_told()
    {
        var devices = ChartDesign.First(DeviceSpace.Rgb, 300);
        Assert.InRange(devices.Count - devices.DistinctBy(d => string.Join(' ', d)).Count(), 2, 16);
    }

    [Fact]
    public void Keeps_the_ink_limit()
    {
        const double limit = 2.6;
        Assert.All(ChartDesign.First(DeviceSpace.Cmyk, 800, limit), d => Assert.InRange(d.Sum(), 0, limit));
    }

    [Fact]
    public void Leaves_no_colour_of_the_printer_far_from_a_patch()
    {
        // 700 patches in a cube of side 1 lie 0.11 apart if they lie evenly; twice that from any colour is far.
        const double far = 0.22;
        var devices = ChartDesign.First(DeviceSpace.Rgb, 700);
        var random = new Random(2);
        for (var i = 0; i < 500; i++)
        {
            double[] colour = [random.NextDouble(), random.NextDouble(), random.NextDouble()];
            Assert.InRange(devices.Min(d => FarthestPoint.Between(d, colour, inks: false)), 0, far);
        }
    }

    [Fact]
    public void A_small_chart_leaves_less_to_guess_than_patches_as_far_apart_as_can_be()
    {
        const int count = 50;
        var printer = InventedConditions.Matte();
        double[][] all = [.. Enumerable.Range(0, 1_000).Select(i => (double[])[i / 100 / 9.0, i / 10 % 10 / 9.0, i % 10 / 9.0])];
        double[][] ends = [.. all.Where(d => d.All(v => v is 0 or 1))];
        var (least, farthest) = (new LeastDoubt(all), new FarthestPoint(all, inks: false));
        Array.ForEach(ends, least.Note);
        Array.ForEach(ends, farthest.Note);
        double Off(Func<double[]> next)
        {
            double[][] picked = [.. ends, .. Enumerable.Range(0, count - ends.Length).Select(_ => next())];
            Assert.Equal(count, picked.DistinctBy(d => string.Join(' ', d)).Count());
            var model = PrinterModels.Fit([InventedPrinter.Read(printer, [.. picked], 1)], cancel: TestContext.Current.CancellationToken);
            var (device, foretold, printed) = (all.SelectMany(d => d).ToArray(), new double[3_000], new double[3_000]);
            model.Predict(device, foretold);
            printer.Predict(device, printed);
            return Enumerable.Range(0, 1_000).Average(i => CieDe2000.Between(
                new(foretold[3 * i], foretold[(3 * i) + 1], foretold[(3 * i) + 2]), new(printed[3 * i], printed[(3 * i) + 1], printed[(3 * i) + 2])).Value);
        }

        var (small, far) = (Off(least.Next), Off(() => farthest.Next()));
        Assert.True(small < far, $"{small:0.00} against {far:0.00}");
    }

    [Theory]
    [InlineData(1)]
    [InlineData(77)]
    public void Neighbours_differ_and_no_strip_looks_like_another_or_like_itself_backwards(int seed)
    {
        const double differ = 0.2; // of the cube's side, in warped space
        var chart = ChartOrder.Lay(DeviceSpace.Rgb, ChartDesign.First(DeviceSpace.Rgb, 480), A4, seed);
        var strips = chart.Patches.Select(p => p.Device.ToArray()).Chunk(A4.PatchesInStrip).ToArray();
        foreach (var strip in strips)
        {
            var close = strip.Zip(strip.Skip(1)).Count(pair => FarthestPoint.Between(pair.First, pair.Second, false) < differ);
            Assert.InRange(close, 0, 1);
            Assert.All(strips, other => Assert.True(
                ReferenceEquals(other, strip) || strip.Zip(other, (a, b) => FarthestPoint.Between(a, b, false)).Average() > differ));
            Assert.True(strip.Zip(strip.Reverse(), (a, b) => FarthestPoint.Between(a, b, false)).Average() > differ);
        }
    }

    [Fact]
    public void The_same_seed_gives_the_same_chart_and_all_patches_are_on_it()
    {
        var devices = ChartDesign.First(DeviceSpace.Rgb, 200);
        var (one, again) = (ChartOrder.Lay(DeviceSpace.Rgb, devices, A4, 5), ChartOrder.Lay(DeviceSpace.Rgb, devices, A4, 5));
        Assert.Equal(one.Reference("x"), again.Reference("x"));
        Assert.Equal(
            devices.Select(d => string.Join(' ', d)).Order(StringComparer.Ordinal),
            one.Patches.Select(p => string.Join(' ', p.Device)).Order(StringComparer.Ordinal));
        Assert.Equal("A1", one.Patches[0].Place);
        Assert.Equal($"B1", one.Patches[A4.PatchesInStrip].Place);
    }

    [Fact]
    public void A_reading_of_the_reference_has_the_patches_to_the_last_bit()
    {
        var chart = ChartOrder.Lay(DeviceSpace.Rgb, ChartDesign.First(DeviceSpace.Rgb, 60), A4, 1);
        // As an instrument's program would add its readings.
        var lines = chart.Reference("invented \"chart\"").Split("\r\n");
        var text = string.Join("\r\n", lines.Select(l =>
            l.StartsWith("SAMPLE_ID", StringComparison.Ordinal) ? $"{l}\tLAB_L\tLAB_A\tLAB_B"
            : l.StartsWith("NUMBER_OF_FIELDS", StringComparison.Ordinal) ? "NUMBER_OF_FIELDS\t8"
            : l.Split('\t').Length == 5 && char.IsDigit(l[0]) ? $"{l}\t50\t0\t0" : l));
        var read = MeasurementFile.Read(Encoding.UTF8.GetBytes(text));
        Assert.Null(read.Fault);
        Assert.Equal(A4.PatchesInStrip, StripPlaces.Length(read.Set!));
        Assert.Equal(chart.Patches.Select(p => p.Device.AsSpan().ToArray()), read.Set!.Patches.Select(p => p.Device.AsSpan().ToArray()));
    }

    [Fact]
    public void A_strip_leaves_paper_at_both_ends_to_set_the_instrument_down_on()
    {
        Assert.Equal(12, A4.LeftMm - (A4 with { By = ChartReadBy.Patch }).LeftMm);
        Assert.InRange(A4.LeftMm + (A4.PatchesInStrip * 8.5), 0, 297 - 12 - 12);
        Assert.True(A4.IsUsable);
        Assert.False((A4 with { WidthMm = 70 }).IsUsable);
        Assert.False((A4 with { GapMm = double.NaN }).IsUsable);
        Assert.Throws<ArgumentException>(() => ChartOrder.Lay(DeviceSpace.Rgb, [[1, 1, 1]], A4 with { WidthMm = 70 }, 1));
    }

    [Fact]
    public void A_second_chart_goes_where_the_first_leaves_most_open()
    {
        // The first chart knows nothing of the darks.
        var random = new Random(4);
        var printer = InventedConditions.Gloss();
        var patches = ImmutableArray.CreateBuilder<Patch>();
        for (var i = 0; i < 150; i++)
        {
            double[] device = [0.4 + (0.6 * random.NextDouble()), 0.4 + (0.6 * random.NextDouble()), 0.4 + (0.6 * random.NextDouble())];
            var lab = new double[3];
            printer.Predict(device, lab);
            patches.Add(new($"{i}", [.. device], new(lab[0], lab[1], lab[2])));
        }

        MeasurementSet first = new(DeviceSpace.Rgb, 3, MCondition.M0, patches.ToImmutable());
        var model = (RgbPrinterModel)PrinterModels.Fit([first], cancel: TestContext.Current.CancellationToken);
        var second = ChartDesign.Second(model, [first], 60);
        Assert.Equal(60, second.Count);
        Assert.True(second.Count(d => d.Min() < 0.4) > 50);
    }

    [Fact]
    public void A_control_strip_is_made_of_patches_of_its_own_chart()
    {
        var chart = ChartDesign.First(DeviceSpace.Rgb, 300);
        MeasurementSet read = new(DeviceSpace.Rgb, 3, MCondition.M0, [.. chart.Select((d, i) => new Patch($"{i}", [.. d], default))]);
        var strip = ChartDesign.Strip(read, 30);
        Assert.Equal(30, strip.Count);
        Assert.All(strip, s => Assert.Contains(chart, c => c.SequenceEqual(s)));
        Assert.Contains(strip, s => s.SequenceEqual([1.0, 1, 1]));
        Assert.True(strip.Count(s => s.Distinct().Count() == 1) >= 6);
        Assert.Throws<ArgumentException>(() => ChartDesign.Strip(read, 10));
    }

    [Fact]
    public void Refuses_counts_and_spaces_that_are_none()
    {
        Assert.Throws<ArgumentException>(() => ChartDesign.First(DeviceSpace.Rgb, 15));
        Assert.Throws<ArgumentException>(() => ChartDesign.First(DeviceSpace.Rgb, 6_001));
        Assert.Throws<ArgumentException>(() => ChartDesign.First(DeviceSpace.None, 100));
    }
}
