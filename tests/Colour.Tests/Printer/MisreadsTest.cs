using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Printer;

/// <summary>An invented printer with seeded noise, and a chart in a shuffled order, as charts are.</summary>
public class MisreadsTest
{
    private const int Strip = 12;

    private static readonly MeasurementSet Chart = Shuffled(7);

    [Fact]
    public void A_clean_chart_raises_no_alarm()
    {
        Assert.Empty(Misreads.Find([Chart], Stop));
        Assert.Empty(StripOrder.Find(Chart, Strip, Stop));
    }

    [Fact]
    public void A_patch_read_wrong_is_named_and_no_other()
    {
        var wrong = Chart.Patches[100] with { Lab = Chart.Patches[100].Lab with { A = Chart.Patches[100].Lab.A + 8 } };
        var found = Assert.Single(Misreads.Find([Chart with { Patches = Chart.Patches.SetItem(100, wrong) }], Stop));
        Assert.Equal(wrong.Device, found.Patch.Device);
        Assert.InRange(found.Expected.A, Chart.Patches[100].Lab.A - 2, Chart.Patches[100].Lab.A + 2);
    }

    [Fact]
    public void A_strip_read_backwards_is_named()
    {
        var read = Labs();
        Array.Reverse(read, 4 * Strip, Strip);
        var found = Assert.Single(StripOrder.Find(With(read), Strip, Stop));
        Assert.Equal((OrderFault.Reversed, 4), (found.Fault, found.Strip));
    }

    [Fact]
    public void Two_strips_in_each_others_place_are_named()
    {
        var read = Labs();
        Array.Copy(Labs(), 2 * Strip, read, 9 * Strip, Strip);
        Array.Copy(Labs(), 9 * Strip, read, 2 * Strip, Strip);
        var found = Assert.Single(StripOrder.Find(With(read), Strip, Stop));
        Assert.Equal((OrderFault.Swapped, 2, 9), (found.Fault, found.Strip, found.Other));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(9)]
    [InlineData(14)]
    [InlineData(22)]
    public void A_strip_left_out_is_named_wherever_it_is(int strip)
    {
        // The last strip of the file is then read from bare table: here, the first strip once more.
        Lab[] read = [.. Labs()[..(strip * Strip)], .. Labs()[((strip + 1) * Strip)..], .. Labs()[..Strip]];
        var found = Assert.Single(StripOrder.Find(With(read), Strip, Stop));
        Assert.Equal((OrderFault.LeftOut, strip), (found.Fault, found.Strip));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(7)]
    [InlineData(13)]
    [InlineData(21)]
    public void A_strip_read_twice_is_named_wherever_it_is(int strip)
    {
        Lab[] read = [.. Labs()[..((strip + 1) * Strip)], .. Labs()[(strip * Strip)..]];
        var found = Assert.Single(StripOrder.Find(With(read[..Chart.Patches.Length]), Strip, Stop));
        Assert.Equal((OrderFault.ReadTwice, strip), (found.Fault, found.Strip));
    }

    [Fact]
    public void A_sheet_read_upside_down_is_named() =>
        Assert.Equal(OrderFault.UpsideDown, Assert.Single(StripOrder.Find(With([.. Labs().Reverse()]), Strip, Stop)).Fault);

    [Fact]
    public void Repeats_give_the_noise_that_was_put_in()
    {
        // 2,000 pairs of L* 50 with noise of .3: two readings differ by .3 * sqrt 2 * the mean of |normal|, .339, and SL is 1.
        var random = new Random(4);
        MeasurementSet set = new(DeviceSpace.Grey, 1, MCondition.M1, [.. Enumerable.Range(0, 4000).Select(i =>
            new Patch($"{i}", [i / 2 / 2000.0], new(50 + (0.3 * Normal(random)), 0, 0)))]);
        Assert.InRange(Repeatability.Within(set)!.Value.Mean.Value, 0.32, 0.36);
        Assert.Null(Repeatability.Within(Chart));
        Assert.Equal(0, Repeatability.Between(Chart, Chart)!.Value.Largest.Value);
    }

    [Fact]
    public void A_summary_counts_95_of_100_from_below()
    {
        var summary = ErrorSummary.Of(Enumerable.Range(1, 100).Select(i => new DeltaE00(i)));
        Assert.Equal((50.5, 95, 100, 100), (summary.Mean.Value, summary.P95.Value, summary.Largest.Value, summary.Count));
    }

    [Fact]
    public void A_chart_tells_its_paper_and_its_darkest_patch()
    {
        var paper = PaperReading.Of(Chart);
        Assert.True(paper.WhiteIsBare);
        Assert.All(paper.White.Device, v => Assert.Equal(1, v));
        Assert.All(paper.Darkest.Device, v => Assert.InRange(v, 0, 0.2));
        Assert.Equal(-Math.Log10(paper.Darkest.Lab.ToXyz(Xyz.D50).Y / Xyz.D50.Y), paper.DMax, 1e-12);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static Lab[] Labs() => [.. Chart.Patches.Select(p => p.Lab)];

    private static MeasurementSet With(Lab[] read) => Chart with { Patches = [.. Chart.Patches.Select((p, i) => p with { Lab = read[i] })] };

    private static MeasurementSet Shuffled(int steps)
    {
        var random = new Random(9);
        int[] order = [.. Enumerable.Range(0, steps * steps * steps)];
        random.Shuffle(order);
        return new(DeviceSpace.Rgb, 3, MCondition.M1, [.. order.Select(i =>
        {
            double[] device = [i % steps / (steps - 1.0), i / steps % steps / (steps - 1.0), i / steps / steps / (steps - 1.0)];
            var lab = new double[3];
            InventedConditions.Gloss().Predict(device, lab);
            return new Patch($"{i}", [.. device], new(lab[0] + (0.3 * Normal(random)), lab[1] + (0.3 * Normal(random)), lab[2] + (0.3 * Normal(random))));
        })]);
    }

    // Box and Muller.
    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
