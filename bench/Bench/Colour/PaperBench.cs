using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Bench.Colour;

/// <summary>What real charts say of their papers, and whether planted misreads and mixed-up strips are found in them.</summary>
internal static class PaperBench
{
    private const string Folder = "../shared/data/measurements/rgb-inkjet";

    public static int Run(string[] args)
    {
        var folder = args is [var given, ..] ? given : Folder;
        if (!Directory.Exists(folder))
        {
            Console.WriteLine($"{folder} is not here: nothing measured.");
            return 0;
        }

        MeasurementSet Read(string file) => MeasurementFile.Read(File.ReadAllBytes($"{folder}/{file}.txt")).Set!;
        foreach (var name in (string[])["matte_A_2420", "matte_C1_1019", "glossy_680_6mm"])
        {
            var set = Read($"{name}_M0");
            Paper(name, PaperFigures.Of(set), PaperFigures.Of(Read($"{name}_M2")));
            var model = PrinterModels.Fit([set]);
            Volume("plain", PrinterModels.FitPlainly([set], CancellationToken.None));
            Volume("followed", model);
            Surface(set, model);
            Fewer(set);
            Console.WriteLine($"  repeats inside the chart: {Text(Repeatability.Within(set))}; leave one out: {Text(ErrorSummary.Of(PrinterModels.LeaveOneOut([set])))}");
            Plant(set);
            Mix(set);
        }

        Console.WriteLine($"C1 and A, shared device values: {Text(Repeatability.Between(Read("matte_C1_1019_M0"), Read("matte_A_2420_M0")))}");
        return 0;
    }

    private static void Paper(string name, PaperFigures with, PaperFigures without)
    {
        var (w, w2) = (with.White!.Value, without.White!.Value);
        Console.WriteLine($"{name}: white {w.L:0.0} {w.A:0.0} {w.B:0.0} (M2 {w2.L:0.0} {w2.A:0.0} {w2.B:0.0}), D-max {with.DMax:0.00}, "
            + $"whiteness {with.Whiteness:0.0}, tint {with.Tint:0.0}, brightness {with.Brightness:0.0}; {with.BrightenerAgainst(without)}");
        Console.WriteLine($"  gamut {with.Volume:N0}, by the model that follows the corners {with.VolumeFollowed:N0}, in the darks under L* 35 {with.Reach!.VolumeOf(0, 360, 0, 35):N0}; greys {with.GreyChroma:0.0} C*, "
            + $"grain {with.Grain:0.00}, solids {with.Solids:0}, steps back {with.StepsBack:0.00}");
    }

    // Whether the size of the chart sways the volume: the corners and some of the other patches, drawn anew each time.
    private static void Fewer(MeasurementSet set)
    {
        foreach (var count in (int[])[150, 300, 600])
        {
            var seen = Enumerable.Range(0, 3).Select(seed =>
            {
                var random = new Random(seed);
                var figures = PaperFigures.Of(set with { Patches = [.. set.Patches.OrderBy(p => p.Device.All(d => d is 0 or 1) ? -1 : random.NextDouble()).Take(count)] });
                return (Plain: figures.Volume!.Value, Followed: figures.VolumeFollowed!.Value);
            }).ToArray();
            Console.WriteLine($"  {count} of its patches, three draws: plain {string.Join(", ", seen.Select(s => $"{s.Plain:N0}"))}; followed {string.Join(", ", seen.Select(s => $"{s.Followed:N0}"))}");
        }
    }

    // The volume by the surface's triangles, carried on to ever smaller ones, and by the integral of det J over the device cube
    // (Gauss and Legendre, two points between bends of the driver's tables, closer together towards both ends).
    private static void Volume(string which, IPrinterModel model)
    {
        const double half = 1e-4;
        var (at, weight) = Points();
        var n = at.Length;
        var sum = 0.0;
        var device = new double[n * n * 18];
        for (var red = 0; red < n; red++)
        {
            for (var i = 0; i < device.Length; i++)
            {
                var (point, row, channel) = (i / 18, i % 18 / 3, i % 3);
                device[i] = at[channel switch { 0 => red, 1 => point / n, _ => point % n }] + (row / 2 == channel ? (row % 2 == 0 ? half : -half) : 0);
            }

            sum += weight[red] * Plane(model, device, weight, half);
        }

        var surface = GamutSolid.VolumeOf(model);
        Console.WriteLine($"  volume, {which}: 17 points {GamutSolid.Of(model, 17).Volume:N0}, 33 {GamutSolid.Of(model).Volume:N0}, 65 {GamutSolid.Of(model, 65).Volume:N0}, carried on {surface:N0}; "
            + $"integral {Math.Abs(sum):N0}, {100 * ((Math.Abs(sum) / surface) - 1):+0.000;-0.000} %");
    }

    private static double Plane(IPrinterModel model, double[] device, double[] weight, double half)
    {
        var (lab, n, sum) = (new double[device.Length], weight.Length, 0.0);
        model.Predict(device, lab);
        for (var p = 0; p < n * n; p++)
        {
            double J(int c, int k) => (lab[(18 * p) + (6 * c) + k] - lab[(18 * p) + (6 * c) + 3 + k]) / (2 * half);
            sum += weight[p / n] * weight[p % n] * (
                (J(0, 0) * ((J(1, 1) * J(2, 2)) - (J(1, 2) * J(2, 1))))
                - (J(0, 1) * ((J(1, 0) * J(2, 2)) - (J(1, 2) * J(2, 0))))
                + (J(0, 2) * ((J(1, 0) * J(2, 1)) - (J(1, 1) * J(2, 0)))));
        }

        return sum;
    }

    private static (double[] At, double[] Weight) Points()
    {
        double[] levels = [0, 0.3, 1, 3, .. Enumerable.Range(1, 31).Select(k => 8.0 * k), 252, 254, 254.7, 255];
        var cells = levels.Zip(levels.Skip(1), (from, to) => (Middle: (from + to) / 510, Half: (to - from) / 510)).ToArray();
        return ([.. cells.SelectMany(c => (double[])[c.Middle - (c.Half / Math.Sqrt(3)), c.Middle + (c.Half / Math.Sqrt(3))])], [.. cells.SelectMany(c => (double[])[c.Half, c.Half])]);
    }

    // Whether the surface stands where the paper does: each patch inside a face, left out, against what all others foretell of
    // it, along the outward normal. Above 0 the paper reaches farther than the model says, and the volume is too small.
    private static void Surface(MeasurementSet set, IPrinterModel model)
    {
        const double half = 1e-3;
        var (patches, foretold) = (set.Averaged(), PrinterModels.Foretold([set]));
        var away = new List<double>();
        for (var i = 0; i < patches.Length; i++)
        {
            var device = patches[i].Device;
            for (var axis = 0; axis < 3; axis++)
            {
                var (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
                if (device[axis] is not (0 or 1) || device[u] is 0 or 1 || device[v] is 0 or 1)
                {
                    continue;
                }

                double[] Along(int channel)
                {
                    var (at, lab) = (new double[6], new double[6]);
                    device.CopyTo(at, 0);
                    device.CopyTo(at, 3);
                    (at[channel], at[3 + channel]) = (at[channel] + half, at[channel] - half);
                    model.Predict(at, lab);
                    return [lab[0] - lab[3], lab[1] - lab[4], lab[2] - lab[5]];
                }

                var (a, b, far) = (Along(u), Along(v), device[axis] > 0 ? 1 : -1);
                double[] normal = [(a[1] * b[2]) - (a[2] * b[1]), (a[2] * b[0]) - (a[0] * b[2]), (a[0] * b[1]) - (a[1] * b[0])];
                var (now, was) = (patches[i].Lab, foretold[i]);
                away.Add(far * ((normal[0] * (now.L - was.L)) + (normal[1] * (now.A - was.A)) + (normal[2] * (now.B - was.B)))
                    / Math.Sqrt(normal.Sum(n => n * n)));
            }
        }

        // The cube's inside lies on one side of all its faces alike, so that one sign holds for all.
        var solid = GamutSolid.Of(model);
        var turned = Math.Sign(solid.Triangles.Sum(t => (t.A.L * ((t.B.A * t.C.B) - (t.B.B * t.C.A))) + (t.A.A * ((t.B.B * t.C.L) - (t.B.L * t.C.B))) + (t.A.B * ((t.B.L * t.C.A) - (t.B.A * t.C.L)))));
        var (mean, n) = (turned * away.Average(), away.Count);
        var error = Math.Sqrt(away.Sum(d => Math.Pow(d - (turned * mean), 2)) / (n - 1.0) / n);
        Console.WriteLine($"  {n} patches inside the faces, left out: outside of the surface by {mean:+0.000;-0.000} +- {error:0.000} dE*ab, which is {100 * mean * solid.Area / solid.Volume:+0.00;-0.00} +- {100 * error * solid.Area / solid.Volume:0.00} % of the volume");
    }

    private static void Plant(MeasurementSet set)
    {
        var random = new Random(3);
        var unharmed = Misreads.Find([set]).Count;
        var singles = set.Patches.GroupBy(p => string.Join(' ', p.Device)).Where(g => g.Count() == 1).Select(g => set.Patches.IndexOf(g.First())).ToArray();
        random.Shuffle(singles);
        var planted = singles.Take(20).ToHashSet();
        var harmed = set with
        {
            Patches = [.. set.Patches.Select((p, i) => planted.Contains(i) ? p with { Lab = MisreadBench.Moved(p.Lab, 2 + (6 * random.NextDouble()), random) } : p)],
        };
        var found = Misreads.Find([harmed]);
        var right = found.Count(f => planted.Any(i => set.Patches[i].Device.SequenceEqual(f.Patch.Device)));
        Console.WriteLine($"  20 misreads of 2 to 8 dE00 planted: {right} found, {found.Count - right} false alarms; {unharmed} in the chart as it is.");
    }

    private static void Mix(MeasurementSet set)
    {
        const int Strip = 20;
        var labs = set.Patches.Select(p => p.Lab).ToArray();
        MeasurementSet With(Lab[] read) => set with { Patches = [.. set.Patches.Select((p, i) => p with { Lab = read[i] })] };
        var reversed = (Lab[])labs.Clone();
        Array.Reverse(reversed, 5 * Strip, Strip);
        var swapped = (Lab[])labs.Clone();
        Array.Copy(labs, 3 * Strip, swapped, 9 * Strip, Strip);
        Array.Copy(labs, 9 * Strip, swapped, 3 * Strip, Strip);
        foreach (var (name, read) in ((string, Lab[])[])[("as it is", labs), ("strip 5 reversed", reversed), ("strips 3 and 9 swapped", swapped), ("upside down", [.. labs.Reverse()])])
        {
            var found = StripOrder.Find(With(read), Strip);
            Console.WriteLine($"  {name}: {(found.Count == 0 ? "nothing found" : string.Join("; ", found.Select(f => $"{f.Fault} {f.Strip} {f.Other}: {f.AsRead.Value:0.0} to {f.Mended.Value:0.0}")))}");
        }
    }

    private static string Text(ErrorSummary? e) =>
        e is { } s ? $"{s.Mean.Value:0.00} / {s.P95.Value:0.00} / {s.Largest.Value:0.00} over {s.Count}" : "none";
}
