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
