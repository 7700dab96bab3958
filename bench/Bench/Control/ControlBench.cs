using Goodsheet.Room.Control;

namespace Goodsheet.Bench.Control;

/// <summary>How long the control chart runs before it cries wolf, and how soon it finds what happened.</summary>
internal static class ControlBench
{
    private const int Runs = 20_000;
    private const int NearRuns = 4_000; // of each of the random directions
    private const int Directions = 60;

    // Near enough for whitened space: paper tint, all inks, one ink, as they move the centre of a strip.
    private static readonly LabShift[] Named = [new(-0.1, 0.05, 1), new(-1, -0.05, 0.1), new(-0.35, -0.6, -0.45)];

    public static int Run(string[] args)
    {
        Tables();
        var strips = new StripNoise(args is [var folder, ..] ? folder : StripNoise.Folder);
        Console.WriteLine(strips.Told);
        var noise = strips.Learn(new(1), 300_000);
        var random0 = new Random(8);
        double[] shapes = [.. Enumerable.Range(0, 400_000).Select(_ => strips.Next(random0).Shape).Order()];
        Console.WriteLine($"shape: half {shapes[200_000]:0.00}, one in 10,000 above {shapes[^40]:0.00}, one in 50,000 above {shapes[^8]:0.00}");
        Console.WriteLine($"strip to strip, the centre's standard deviations: L* {Math.Sqrt(noise.LL):0.000}, a* {Math.Sqrt(noise.AA):0.000}, b* {Math.Sqrt(noise.BB):0.000}");
        Console.WriteLine($"nothing happens, centre known: {Text(Means(noise, strips, default, Runs, 11))}");
        Console.WriteLine($"nothing happens, centre and noise learnt as the room does: {Text(Means(noise, strips, default, Runs / 5, 12, learns: true))}");
        foreach (var steps in (double[])[1, 2])
        {
            Console.WriteLine($"{steps} sigma from the first strip on:");
            foreach (var (name, i) in ((string, int)[])[("paper tint", 0), ("all inks", 1), ("one ink", 2)])
            {
                Console.WriteLine($"  along {name}: {Text(Means(noise, strips, Along(noise, Named[i], steps), Runs, 20 + i))}");
            }

            var random = new Random(3);
            var worst = Enumerable.Range(0, Directions)
                .Select(_ => new LabShift(StripNoise.Normal(random), StripNoise.Normal(random), StripNoise.Normal(random)))
                .Select(d => noise.Colour((steps / d.Size) * d))
                .OrderByDescending(d => Means(noise, strips, d, NearRuns, 40).Mean).First();
            Console.WriteLine($"  in the slowest of {Directions} random directions: {Text(Means(noise, strips, worst, Runs, 41))}");
        }

        Console.WriteLine($"1 sigma along paper tint, after 30 quiet strips: {Text(Means(noise, strips, Along(noise, Named[0], 1), Runs / 2, 60, before: 30))}");
        return 0;
    }

    private static void Tables()
    {
        double[] shifts = [0, 0.5, 1, 1.5, 2, 3];
        foreach (var (name, run) in ((string, Func<double, double>)[])
        [
            ("Shewhart, 3", s => RunLength.Shewhart(3, s)), ("EWMA .1, 2.814", s => RunLength.Ewma(0.1, 2.814, s)),
            ("EWMA .2, 2.962", s => RunLength.Ewma(0.2, 2.962, s)), ("CUSUM .5, 5", s => RunLength.Cusum(0.5, 5, s)),
            ("T2 of three", s => RunLength.ThreeWays(14.156, s)),
        ])
        {
            Console.WriteLine($"{name}: {string.Join(" / ", shifts.Select(s => $"{run(s):0.0}"))}");
        }
    }

    private static LabShift Along(HouseNoise noise, LabShift direction, double steps)
    {
        var white = noise.Whiten(direction);
        return noise.Colour((steps / white.Size) * white);
    }

    // Strips from the move on until an alarm, with the half width of the 95 % interval.
    private static (double Mean, double Half) Means(
        HouseNoise noise, StripNoise strips, LabShift move, int runs, int seed, bool learns = false, int before = 0)
    {
        var lengths = new double[runs];
        Parallel.For(0, runs, new ParallelOptions { MaxDegreeOfParallelism = 2 }, run =>
        {
            var random = new Random((seed * 1_000_003) + run);
            var chart = Quiet(noise, strips, random, before, learns);
            int length = 0;
            Alarms alarms;
            do
            {
                var (centre, shape) = strips.Next(random);
                alarms = learns ? chart.Read(move + centre, shape).Alarms : chart.Step(noise.Whiten(move + centre), shape, out _);
                length++;
            }
            while (alarms is Alarms.None);
            lengths[run] = length;
        });
        var mean = lengths.Average();
        return (mean, 1.96 * Math.Sqrt(lengths.Sum(l => (l - mean) * (l - mean)) / (runs - 1.0) / runs));
    }

    // A chart that has read so many strips without an alarm; begun anew until it has.
    private static ControlChart Quiet(HouseNoise noise, StripNoise strips, Random random, int before, bool learns)
    {
        while (true)
        {
            var chart = new ControlChart(learns ? HouseNoise.Usual : noise, Named, knowsCentre: !learns);
            var i = 0;
            while (i < before && chart.Step(noise.Whiten(strips.Next(random).Centre), 1, out _) is Alarms.None)
            {
                i++;
            }

            if (i == before)
            {
                return chart;
            }
        }
    }

    private static string Text((double Mean, double Half) m) => $"{m.Mean:0.0} strips, 95 % interval {m.Mean - m.Half:0.0} to {m.Mean + m.Half:0.0}";
}
