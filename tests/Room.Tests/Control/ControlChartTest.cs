using Goodsheet.Room.Control;

namespace Goodsheet.Room.Tests.Control;

public class ControlChartTest
{
    private const int Runs = 1500; // a mean run length is then known to about 2.6 %
    private const double OfMean = 0.08; // three standard errors
    private static readonly HouseNoise Even = HouseNoise.Of(new(1, 1, 1), new(1, 1, 1));
    private static readonly LabShift[] Axes = [new(1, 0, 0), new(0, 1, 0), new(0, 0, 1)];

    [Fact]
    public void Cries_wolf_no_more_than_once_in_five_hundred_strips() => Assert.InRange(MeanRun(default), 500 * (1 - OfMean), 700);

    [Theory]
    [InlineData(1, 15.2, 13.5)]
    [InlineData(2, 5.6, 5.1)]
    public void Finds_small_moves_soon_and_those_of_named_causes_sooner(double steps, double anyWay, double named)
    {
        var third = steps / Math.Sqrt(3); // as far as can be from the three named directions
        Assert.InRange(MeanRun(new(third, third, third)), 1, anyWay * (1 + OfMean));
        Assert.All(Axes, axis => Assert.InRange(MeanRun(steps * axis), 1, named * (1 + OfMean)));
    }

    [Fact]
    public void With_one_limit_alone_runs_as_the_tables_say()
    {
        var never = new ControlLimits(0.1, 1e9, 2.814, 1e9, 1e9);
        Assert.Equal(RunLength.Ewma(0.1, 2.814, 1), MeanRun(new(1, 0, 0), never, [new(1, 0, 0)]), OfMean * 10.3);
        Assert.Equal(
            RunLength.ThreeWays(14.156, 2), MeanRun(new(2, 0, 0), never with { Named = 1e9, Jump = 14.156 }, []), OfMean * 12.3);
    }

    [Fact]
    public void One_strip_far_off_is_found_at_once_and_teaches_nothing()
    {
        var chart = new ControlChart(Even, Axes);
        var point = chart.Read(new(9, 0, 0), 1);
        Assert.True(point.Alarms.HasFlag(Alarms.Jump));
        Assert.Equal(0, chart.Quiet);
        Assert.False(point.Settled);
    }

    [Fact]
    public void The_cause_that_is_named_is_the_one_crossed_farthest()
    {
        var chart = new ControlChart(Even, Axes, knowsCentre: true);
        ControlPoint point;
        do
        {
            point = chart.Read(new(0.2, -1.2, 0), 1);
        }
        while (point.Alarms is Alarms.None);
        Assert.Equal(1, point.Direction);
        Assert.True(point.Drift.A < 0);
    }

    [Fact]
    public void Patches_that_part_while_their_centre_stands_are_found()
    {
        LabShift[] patches = [.. Enumerable.Range(0, 24).Select(i => new LabShift(i % 2 == 0 ? 2 : -2, 0, 0))];
        var strip = StripShift.Of(patches, Even);
        Assert.Equal(0, strip.Centre.Size, 1e-12);
        Assert.Equal(Math.Sqrt(24 * 4 / (3.0 * 23)), strip.Shape, 1e-12);
        Assert.Equal(Alarms.None, new ControlChart(Even, Axes).Read(strip.Centre, 1.6).Alarms);
        Assert.Equal(Alarms.Shape, new ControlChart(Even, Axes).Read(strip.Centre, 1.61).Alarms);
    }

    [Fact]
    public void The_start_up_ends_after_eight_strips_and_the_usual_is_learnt()
    {
        var chart = new ControlChart(Even, Axes);
        var random = new Random(4);
        List<ControlPoint> points = [];
        for (var i = 0; i < 60; i++)
        {
            points.Add(chart.Read(new LabShift(0.8, 0, 0) + (0.5 * Noise(random)), 1));
        }

        Assert.Equal(ControlLimits.StartUp, points.FindIndex(p => p.Settled));
        Assert.All(points, p => Assert.Equal(Alarms.None, p.Alarms));
        Assert.InRange(points[^20..].Average(p => p.Shift.L), -0.3, 0.3);
    }

    [Fact]
    public void Whitened_noise_is_the_same_in_every_direction()
    {
        var random = new Random(5);
        LabShift[] skew = [.. Enumerable.Range(0, 20_000).Select(_ => Noise(random)).Select(n => new LabShift(n.L, (0.6 * n.L) + (0.5 * n.A), n.B - (0.4 * n.A)))];
        var noise = HouseNoise.Learn(Even, 1, skew);
        LabShift[] white = [.. skew.Select(noise.Whiten)];
        Assert.Equal(1, white.Average(w => w.L * w.L), 0.03);
        Assert.Equal(1, white.Average(w => w.B * w.B), 0.03);
        Assert.Equal(0, white.Average(w => w.L * w.A), 0.03);
        Assert.Equal(0, white.Average(w => w.A * w.B), 0.03);
        Assert.Equal(skew[7].B, noise.Colour(noise.Whiten(skew[7])).B, 1e-12);
    }

    private static double MeanRun(LabShift shift, ControlLimits? limits = null, LabShift[]? named = null)
    {
        var random = new Random(20_261);
        long strips = 0;
        for (var run = 0; run < Runs; run++)
        {
            var chart = new ControlChart(Even, named ?? Axes, limits, knowsCentre: true);
            do
            {
                strips++;
            }
            while (chart.Step(shift + Noise(random), 1, out _) is Alarms.None);
        }

        return strips / (double)Runs;
    }

    private static LabShift Noise(Random random) => new(Normal(random), Normal(random), Normal(random));

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
