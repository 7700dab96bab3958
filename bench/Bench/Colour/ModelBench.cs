using System.Diagnostics;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Bench.Colour;

/// <summary>The printer model on real charts: agreement with its reference, then what it foretells of unseen patches.</summary>
/// <remarks>
/// The charts lie in ../shared/data beside the project and may not be copied; without them this says so. Rows are
/// mean / 95th percentile / largest of dE00.
/// </remarks>
internal static class ModelBench
{
    private const string Folder = "../shared/data/measurements";

    public static int Run(string[] args)
    {
        var folder = args is [var given, ..] ? given : Folder;
        if (!Directory.Exists(folder))
        {
            Console.WriteLine($"{folder} is not here: nothing measured.");
            return 0;
        }

        MeasurementSet Read(string file) => MeasurementFile.Read(File.ReadAllBytes($"{folder}/{file}")).Set!;
        var c1 = Read("rgb-inkjet/matte_C1_1019_M0.txt");
        var a = Read("rgb-inkjet/matte_A_2420_M0.txt");
        var gloss = Read("rgb-inkjet/glossy_680_6mm_M0.txt");
        Reference(c1);
        Console.WriteLine("| trained on -> judged on | mean / p95 / max |\n|---|---|");
        var small = Design(c1, 343);
        var rest = Without(c1, small);
        Judge("343 of C1 -> the others of C1", [small], rest);
        Judge("343 of C1 -> A, another day", [small], a);
        Judge("all of C1 -> A", [c1], a);
        Judge("A -> C1", [a], c1);
        var (even, odd) = Fold(c1, 2, 0);
        Judge("A and half of C1 -> other half, as of that day", [a, even], odd, 1);
        Judge("half of C1 -> other half", [even], odd);
        Greys("greys by halves inside the 343, dCh, mean / - / largest", small);
        Merged("A and C1, tenfold, as of the day of each", a, c1);
        Seeds("gloss, 80 % -> 20 %, mean over seeds 0 to 9 / same / median worst", gloss);
        Crossed("matte C1, 80 % -> 20 %, five ways", c1, 5);
        foreach (var file in (string[])["FOGRA39L.txt", "TR006.txt"])
        {
            Crossed($"{file}, half -> half, both ways", Read($"cmyk/{file}"), 2);
        }

        NewPaperBench.Show(c1, gloss);
        MisreadBench.Show("matte_A_2420", a);
        MisreadBench.Show("glossy_680", gloss);
        Speed("A, 2,420 patches", a);
        return 0;
    }

    // Values of two models in numpy, under their white, with the same weights: the reference that all began with, and the model as
    // it is now (bench/reference/printer_model.py).
    private static void Reference(MeasurementSet c1)
    {
        Xyz white = new(96.422, 100, 82.521);
        var set = c1 with { Patches = [.. c1.Patches.Select(p => p with { Lab = TristimulusWeights.D50.ToXyz(p.Spectrum!).ToLab(white) })] };
        double[] device = [.. ((double[])[128, 128, 128, 10, 10, 10, 255, 0, 0, 200, 150, 120, 30, 60, 200]).Select(d => d / 255)];
        var (first, now) = (new double[15], new double[15]);
        GaussianProcess.Fit(new ReferenceForm(), TrainingData.Of([set])).Predict(device, first);
        PrinterModels.Fit([set]).Predict(device, now);
        double[] ofFirst = [59.181, -0.468, -1.872, 17.633, 0.308, 1.417, 50.288, 67.892, 46.803, 73.079, 10.632, 26.156, 38.045, -0.285, -39.877];
        double[] ofNow = [59.214, -0.519, -1.725, 17.641, 0.281, 1.424, 50.288, 67.843, 46.79, 73.088, 10.546, 26.157, 38.049, -0.288, -39.89];
        Console.WriteLine($"Largest difference from five check values in numpy, in L*, a* or b* (to be at most .01): "
            + $"{Apart(first, ofFirst):0.0000} with the reference's numbers, {Apart(now, ofNow):0.0000} as the model is now.\n");
    }

    private static double Apart(double[] one, double[] other) => one.Zip(other).Max(p => Math.Abs(p.First - p.Second));

    private static void Crossed(string name, MeasurementSet set, int folds)
    {
        var errors = Enumerable.Range(0, folds).SelectMany(f =>
        {
            var (train, judge) = Fold(set, folds, f);
            return Errors([train], judge, null);
        });
        Show(name, errors);
    }

    private static void Greys(string name, MeasurementSet set)
    {
        var away = GreyHalves(set).SelectMany(half =>
        {
            var model = PrinterModels.Fit([half.Train]);
            return half.Judge.Select(p =>
            {
                var lab = new double[3];
                model.Predict([.. p.Device], lab);
                return double.Hypot(p.Lab.A - lab[1], p.Lab.B - lab[2]);
            });
        }).ToArray();
        Console.WriteLine($"| {name} | {away.Average():0.000} / - / {away.Max():0.0} |");
    }

    // The ends and every other grey are learnt, the rest foretold, both ways round.
    internal static IEnumerable<(MeasurementSet Train, AveragedPatch[] Judge)> GreyHalves(MeasurementSet set)
    {
        var greys = set.Averaged().Select(p => p.Device).Where(d => d[0] == d[1] && d[1] == d[2]).OrderBy(d => d[0]).Select(d => Key(d)).ToList();
        return Enumerable.Range(0, 2).Select(half =>
        {
            var held = greys.Skip(1).SkipLast(1).Where((_, i) => i % 2 == half).ToHashSet();
            return (set with { Patches = [.. set.Patches.Where(p => !held.Contains(Key(p.Device)))] }, set.Averaged().Where(p => held.Contains(Key(p.Device))).ToArray());
        });
    }

    private static void Merged(string name, MeasurementSet a, MeasurementSet c)
    {
        var errors = Enumerable.Range(0, 10).SelectMany(f =>
        {
            var ((trainA, judgeA), (trainC, judgeC)) = (Fold(a, 10, f), Fold(c, 10, f));
            return Errors([trainA, trainC], judgeA, 0).Concat(Errors([trainA, trainC], judgeC, 1));
        });
        Show(name, errors);
    }

    private static void Seeds(string name, MeasurementSet set) => ShowSeeds(name, seed =>
    {
        var (train, judge) = Fold(set, 5, 0, seed);
        return Errors([train], judge, null);
    });

    internal static void ShowSeeds(string name, Func<int, IEnumerable<double>> errors)
    {
        var rows = Enumerable.Range(0, 10).Select(seed =>
        {
            double[] e = [.. errors(seed).Order()];
            return (Mean: e.Average(), P95: e[(int)(e.Length * .95)], Worst: e[^1]);
        }).ToArray();
        Console.WriteLine($"| {name} | {rows.Average(r => r.Mean):0.000} / {rows.Average(r => r.P95):0.00} / {rows.Select(r => r.Worst).Order().Skip(4).Take(2).Average():0.0} |");
    }

    private static void Judge(string name, MeasurementSet[] train, MeasurementSet judge, int? chart = null) =>
        Show(name, Errors(train, judge, chart));

    private static IEnumerable<double> Errors(MeasurementSet[] train, MeasurementSet judge, int? chart)
    {
        var model = PrinterModels.Fit(train);
        var patches = judge.Averaged();
        var lab = new double[patches.Length * 3];
        double[] device = [.. patches.SelectMany(p => p.Device)];
        (chart is { } c ? model.OnDayOf(c) : model).Predict(device, lab);
        return patches.Select((p, i) => CieDe2000.Between(p.Lab, new(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2])).Value);
    }

    internal static void Show(string name, IEnumerable<double> errors)
    {
        double[] e = [.. errors.Order()];
        Console.WriteLine($"| {name} | {e.Average():0.000} / {e[(int)(e.Length * .95)]:0.00} / {e[^1]:0.0} |");
    }

    // By distinct device value, shuffled with a seed: repeats never stand on both sides.
    internal static (MeasurementSet Train, MeasurementSet Judge) Fold(MeasurementSet set, int folds, int fold, int seed = 7)
    {
        var random = new Random(seed);
        var of = set.Averaged().Select((p, i) => (Key: Key(p.Device), Order: random.NextDouble())).OrderBy(p => p.Order)
            .Select((p, i) => (p.Key, Fold: i % folds)).ToDictionary(p => p.Key, p => p.Fold);
        return (
            set with { Patches = [.. set.Patches.Where(p => of[Key(p.Device)] != fold)] },
            set with { Patches = [.. set.Patches.Where(p => of[Key(p.Device)] == fold)] });
    }

    internal static MeasurementSet Without(MeasurementSet set, MeasurementSet taken)
    {
        var keys = taken.Patches.Select(p => Key(p.Device)).ToHashSet();
        return set with { Patches = [.. set.Patches.Where(p => !keys.Contains(Key(p.Device)))] };
    }

    internal static string Key(IEnumerable<double> device) => string.Join(',', device);

    // Corners, all greys, then always the patch farthest from those taken, in warped RGB.
    internal static MeasurementSet Design(MeasurementSet set, int count, int greys = int.MaxValue)
    {
        var all = set.Averaged();
        var warped = all.Select(p => p.Device.Select(x => 1 - Math.Pow(1 - Math.Pow(x, .52), .7)).ToArray()).ToArray();
        var taken = new HashSet<string>();
        var distance = Enumerable.Repeat(double.MaxValue, all.Length).ToArray();
        void Take(int i)
        {
            taken.Add(Key(all[i].Device));
            for (var j = 0; j < all.Length; j++)
            {
                distance[j] = Math.Min(distance[j], warped[i].Zip(warped[j]).Sum(p => (p.First - p.Second) * (p.First - p.Second)));
            }
        }

        int[] ramp = [.. Enumerable.Range(0, all.Length).Where(i => all[i].Device is var d && d[0] == d[1] && d[1] == d[2]).OrderBy(i => all[i].Device[0])];
        var step = Math.Max(1.0, (ramp.Length - 1.0) / (greys - 1.0));
        var wanted = Enumerable.Range(0, Math.Min(greys, ramp.Length)).Select(i => ramp[(int)(i * step)]).ToHashSet();
        for (var i = 0; i < all.Length; i++)
        {
            if (all[i].Device.All(x => x is 0 or 1) || wanted.Contains(i))
            {
                Take(i);
            }
        }

        while (taken.Count < count)
        {
            Take(Array.IndexOf(distance, distance.Max()));
        }

        return set with { Patches = [.. set.Patches.Where(p => taken.Contains(Key(p.Device)))] };
    }

    private static void Speed(string name, MeasurementSet set)
    {
        var grid = new double[35_937 * 3];
        for (var i = 0; i < 35_937; i++)
        {
            (grid[3 * i], grid[(3 * i) + 1], grid[(3 * i) + 2]) = (i / 1089 / 32.0, i / 33 % 33 / 32.0, i % 33 / 32.0);
        }

        var lab = new double[grid.Length];
        List<double> fits = [], grids = [];
        for (var run = 0; run < 5; run++)
        {
            var before = Process.GetCurrentProcess().TotalProcessorTime;
            var model = PrinterModels.Fit([set]);
            var fitted = Process.GetCurrentProcess().TotalProcessorTime;
            model.Predict(grid, lab);
            fits.Add((fitted - before).TotalSeconds);
            grids.Add((Process.GetCurrentProcess().TotalProcessorTime - fitted).TotalSeconds);
        }

        Console.WriteLine($"\n{name}: fit {fits.Order().ElementAt(2):0.00} s, a grid of 33 by 33 by 33 {grids.Order().ElementAt(2):0.00} s (CPU time of all threads, median of 5).");
    }
}
