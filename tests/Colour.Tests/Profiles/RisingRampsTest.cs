using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>Toned ramps through a table do not step back, and four inks end in their best black.</summary>
public class RisingRampsTest
{
    private const int Points = 17;
    private const int Steps = 1_000;
    private const double MostBack = 0.05; // L*: a tenth of the smallest difference people tell apart side by side (common practice, no source)
    private const double Dip = 0.04; // of each channel: 4 L*
    private const double LeastSpoilt = 0.1; // L*: else there is nothing to mend
    private const double MovedMost = 3;    // times that: a mended table is still that table, though spoilt nodes lie side by side (2 times was .006 too little)

    [Fact]
    public void Ramps_that_step_back_between_the_nodes_no_longer_do()
    {
        var lattice = new DeviceLattice([2, 2, 2], [.. Enumerable.Range(0, 8).SelectMany(i => Printed(i / 4, i / 2 % 2, i % 2))]);
        var box = PcsBox.Around(lattice, Points);
        var nodes = new double[Points * Points * Points * 3];
        for (var node = 0; node < nodes.Length / 3; node++)
        {
            // Some nodes near the greys are darker than those around and beneath them.
            var (up, across, along) = (node / (Points * Points), (node / Points % Points) - box.Zero(1), (node % Points) - box.Zero(2));
            var dip = up is 3 or 5 && Math.Abs(across) <= 2 && Math.Abs(along) <= 2 && (across + along) % 3 == 0 ? Dip : 0;
            var (l, a, b) = (box.At(0, node / (Points * Points)), box.At(1, node / Points % Points), box.At(2, node % Points));
            double[] device = [(l / 100) + (a / 90) + (b / 180), (l / 100) - (a / 90) + (b / 180), (l / 100) - (b / 90)];
            for (var c = 0; c < 3; c++)
            {
                // In the dark lightness hardly rises, as where a print is nearly black.
                var value = l < 40 ? device[c] - (l / 100) + 0.3 + (l / 1000) : device[c];
                nodes[(3 * node) + c] = Math.Clamp(value - dip, -0.25, 1.25);
            }
        }

        var before = (double[])nodes.Clone();
        Assert.InRange(WorstRamp(box, nodes), LeastSpoilt, 100);
        new RisingRamps(box, lattice, (-0.25, 1.25), 4).Straighten(nodes);
        Assert.InRange(WorstRamp(box, nodes), 0, MostBack);
        Assert.InRange(before.Zip(nodes).Max(n => Math.Abs(n.First - n.Second)), 0, MovedMost * Dip);
    }

    [Theory]
    [InlineData(4.0)]
    [InlineData(3.2)]
    [InlineData(2.4)]
    public void The_black_of_four_inks_is_the_best_within_the_limit(double limit)
    {
        const int nodes = 9;
        const int looks = 20;
        const double near = 0.02; // of L* squared: less than a thousandth of an L*
        var printer = InventedConditions.Matte(4);
        double[] device = [.. Enumerable.Range(0, nodes * nodes * nodes * nodes).SelectMany(i =>
            (double[])[i / (nodes * nodes * nodes) / 8.0, i / (nodes * nodes) % nodes / 8.0, i / nodes % nodes / 8.0, i % nodes / 8.0])];
        var lab = new double[device.Length / 4 * 3];
        printer.Predict(device, lab);
        var lattice = new DeviceLattice([nodes, nodes, nodes, nodes], lab);
        var black = new double[4];
        DarkestMix.Find(lattice, limit, black);
        Assert.InRange(black.Sum(), 0, limit);
        Assert.All(black, ink => Assert.InRange(ink, 0, 1));

        var best = Enumerable.Range(0, (looks + 1) * (looks + 1) * (looks + 1) * (looks + 1))
            .Select(i => new[] { i % 21 / 20.0, i / 21 % 21 / 20.0, i / 441 % 21 / 20.0, i / 9261 / 20.0 })
            .Where(mix => mix.Sum() <= limit).Min(mix => OffBlack(lattice, mix));
        Assert.InRange(OffBlack(lattice, black), 0, best + near);
    }

    private static double[] Printed(double red, double green, double blue) =>
        [100 * (red + green + blue) / 3, 45 * (red - green), 60 * (((red + green) / 2) - blue)];

    private static double OffBlack(DeviceLattice lattice, double[] mix)
    {
        var lab = new double[3];
        lattice.Evaluate(mix, lab);
        return (lab[0] * lab[0]) + (((lab[1] * lab[1]) + (lab[2] * lab[2])) / 4);
    }

    // Of ramps other than those that are looked at when a table is mended.
    private static double WorstRamp(PcsBox box, double[] nodes)
    {
        var table = new Clut([Points, Points, Points], 3, [.. nodes.Select(n => (ushort)Math.Round(65535 * (n + 0.25) / 1.5))]);
        var device = new double[3];
        var most = 0.0;
        foreach (var chroma in (double[])[2, 5, 10, 20])
        {
            for (var hue = 0; hue < 24; hue++)
            {
                var (sin, cos) = Math.SinCos(15 * hue * Math.PI / 180);
                var top = double.MinValue;
                for (var i = 0; i <= Steps; i++)
                {
                    var x = (double)i / Steps;
                    var tint = chroma * 4 * x * (1 - x);
                    table.Evaluate([box.Along(0, 100 * x), box.Along(1, tint * cos), box.Along(2, tint * sin)], Interpolation.Multilinear, device);
                    var l = 100 * device.Average(d => Math.Clamp((1.5 * d) - 0.25, 0, 1));
                    (most, top) = (Math.Max(most, top - l), Math.Max(top, l));
                }
            }
        }

        return most;
    }
}
