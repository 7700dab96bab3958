using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Printer;

/// <summary>An invented printer with seeded noise; what is planted is found, and nothing in a clean chart.</summary>
public class ReadingCourseTest
{
    private static readonly NeugebauerPrinter Rgb = InventedConditions.Gloss();
    private static readonly NeugebauerPrinter Cmyk = InventedConditions.Gloss(4);

    private const double Noise = 0.25; // of L*, a*, b*: what repeats of real charts differ by

    private static readonly MeasurementSet Chart = Mixed(DeviceSpace.Rgb, 300, seed: 5);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    public void A_clean_chart_raises_no_alarm(int seed)
    {
        Assert.Null(ReadingCourse.Find(Mixed(DeviceSpace.Rgb, 250, seed), Stop));
        Assert.Null(ReadingCourse.Find(Mixed(DeviceSpace.Cmyk, 250, seed), Stop));
    }

    [Fact]
    public void The_reference_of_another_chart_is_told()
    {
        var labs = Mixed(DeviceSpace.Rgb, 300, seed: 9).Patches.Select(p => p.Lab).ToArray();
        var found = ReadingCourse.Find(Chart with { Patches = [.. Chart.Patches.Select((p, i) => p with { Lab = labs[i] })] }, Stop)!;
        Assert.Equal(CourseFault.WrongChart, found.Fault);
        Assert.True(found.Size.Value > 12);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void A_channel_that_stops_is_named_with_its_patch(int channel)
    {
        const int From = 220;
        var found = ReadingCourse.Find(Chart with
        {
            Patches = [.. Chart.Patches.Select((p, i) => i < From ? p : p with { Lab = Printed([.. p.Device.SetItem(channel, 1)], new Random(i)) })],
        }, Stop)!;
        Assert.Equal((CourseFault.ChannelGone, channel), (found.Fault, found.Channel));
        Assert.InRange(found.From, From - 3, From + 3);
    }

    [Theory]
    [InlineData(DeviceSpace.Rgb, 0, 40, 60)]
    [InlineData(DeviceSpace.Rgb, 2, 100, 190)]
    [InlineData(DeviceSpace.Cmyk, 1, 0, 45)]
    [InlineData(DeviceSpace.Cmyk, 3, 90, 300)]
    public void A_channel_that_stops_and_comes_back_is_named_with_both_ends(DeviceSpace space, int channel, int from, int to)
    {
        var chart = Mixed(space, 300, seed: 5);
        var found = ReadingCourse.Find(chart with
        {
            Patches = [.. chart.Patches.Select((p, i) => i < from || i >= to ? p : p with { Lab = Printed([.. p.Device.SetItem(channel, space is DeviceSpace.Rgb ? 1 : 0)], new Random(i)) })],
        }, Stop)!;
        Assert.Equal((CourseFault.ChannelGone, channel), (found.Fault, found.Channel));
        Assert.InRange(found.From, from - 3, from + 3);
        Assert.InRange(found.To, to - 3, to + 3);
    }

    [Fact]
    public void A_channel_that_never_printed_is_named()
    {
        // As Mixed, with paper and the channel alone among its patches: without them nothing can tell.
        var random = new Random(3);
        double[][] told = [[1, 1, 1], [0, 1, 1], [0.2, 1, 1], [1, 0, 1], [1, 1, 0]];
        var found = ReadingCourse.Find(Chart with
        {
            Patches = [.. Chart.Patches.Select((p, i) => (i < told.Length ? p with { Device = [.. told[i]] } : p) is var q ? q with { Lab = Printed([.. q.Device.SetItem(0, 1)], random) } : p)],
        }, Stop)!;
        Assert.Equal((CourseFault.ChannelGone, 0, 0, 300), (found.Fault, found.Channel, found.From, found.To));
    }

    /// <summary>Characterization data FOGRA39L, published by Fogra: a real offset condition, in the order of its file.</summary>
    [Fact]
    public void In_published_data_nothing_is_found_and_an_ink_planted_gone_is()
    {
        using var stream = typeof(ReadingCourseTest).Assembly.GetManifestResourceStream("FOGRA39L.txt")!;
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        var all = MeasurementFile.Read(copy.ToArray()).Set!;
        var random = new Random(39); // 400 of its 1,617 patches, mixed: what a chart holds, and quick to learn
        var set = all with { Patches = [.. all.Patches.OrderBy(_ => random.Next()).Take(400)] };
        Assert.Null(ReadingCourse.Find(set, Stop));

        const int From = 210, To = 270, Magenta = 1;
        var model = PrinterModels.Fit([set], null, Stop);
        var dead = set with { Patches = [.. set.Patches.Select((p, i) => i is < From or >= To ? p : p with { Lab = Without(model, p, Magenta) })] };
        var found = ReadingCourse.Find(dead, Stop)!;
        Assert.Equal((CourseFault.ChannelGone, Magenta), (found.Fault, found.Channel));
        Assert.InRange(found.From, From - 8, From + 8); // patches without magenta at either end look alike
        Assert.InRange(found.To, To - 8, To + 8);
    }

    // What the model says of it without the ink, and what the patch itself has on top of the model.
    private static Lab Without(ILearntPrinter model, Patch patch, int channel)
    {
        var lab = new double[6];
        model.Predict([.. patch.Device, .. patch.Device.SetItem(channel, 0)], lab);
        return new(patch.Lab.L - lab[0] + lab[3], patch.Lab.A - lab[1] + lab[4], patch.Lab.B - lab[2] + lab[5]);
    }

    [Fact]
    public void An_even_drift_is_told_with_its_size()
    {
        var found = ReadingCourse.Find(Chart with
        {
            Patches = [.. Chart.Patches.Select((p, i) => p with { Lab = p.Lab with { L = p.Lab.L + (1.5 * i / 299) } })],
        }, Stop)!;
        Assert.Equal(CourseFault.Drift, found.Fault);
        Assert.InRange(found.Size.Value, 1.1, 1.9); // of L* 1.5 on a middle grey, where SL is 1
    }

    private static MeasurementSet Mixed(DeviceSpace space, int count, int seed)
    {
        var random = new Random(seed);
        var channels = space is DeviceSpace.Rgb ? 3 : 4;
        return new(space, channels, MCondition.M1, [.. Enumerable.Range(0, count).Select(i =>
        {
            double[] device = [.. Enumerable.Range(0, channels).Select(_ => Math.Round(random.NextDouble() * 100) / 100 * (channels == 4 ? 0.75 : 1))];
            return new Patch($"{i + 1}", [.. device], Printed(device, random));
        })]);
    }

    private static Lab Printed(double[] device, Random random)
    {
        var lab = new double[3];
        (device.Length == 4 ? Cmyk : Rgb).Predict(device, lab);
        return new(lab[0] + (Noise * Normal(random)), lab[1] + (Noise * Normal(random)), lab[2] + (Noise * Normal(random)));
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
