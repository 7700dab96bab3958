using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Bench.Control;

/// <summary>Whether the cause of a drift is named from one strip, and how much of it a correction takes back.</summary>
internal static class DriftBench
{
    private const int Drifts = 1_000;
    private static readonly int[] Levels = [0, 1, 2, 3, 4, 5, 6];

    private static readonly InventedPaper[] Papers =
    [
        new() { Warmth = 0.05, Brightener = 0.1, Surface = 0.02, InkTake = 0.8 },
        new() { White = 0.88, Warmth = 0.02, Surface = 0.004, Gain = 0.1, N = 1.7 },
        new() { White = 0.92, Warmth = 0.08, Surface = 0.012, InkTake = 0.9, Gain = 0.15, N = 2.2 },
    ];

    private static readonly double[][] Strip = [.. ((int[][])
    [
        [6, 6, 6], [0, 6, 6], [6, 0, 6], [6, 6, 0], [0, 0, 6], [0, 6, 0], [6, 0, 0], [0, 0, 0], [2, 6, 6], [4, 6, 6], [6, 2, 6], [6, 4, 6],
        [6, 6, 2], [6, 6, 4], [1, 1, 1], [2, 2, 2], [3, 3, 3], [4, 4, 4], [5, 5, 5], [3, 3, 6], [3, 6, 3], [6, 3, 3], [2, 4, 5], [5, 4, 3],
    ]).Select(p => p.Select(v => v / 6.0).ToArray())];

    private static readonly double[][] Chart = [.. from r in Levels from g in Levels from b in Levels select (double[])[r / 6.0, g / 6.0, b / 6.0]];

    public static int Run(string[] args)
    {
        Causes();
        Corrections();
        Real(args is [var folder, ..] ? folder : StripNoise.Folder);
        return 0;
    }

    private static void Causes()
    {
        var random = new Random(7);
        Dictionary<string, int> tally = [];
        for (var i = 0; i < Drifts; i++)
        {
            var cause = (DriftCause)(1 + (i % 6));
            var size = (0.02 + (0.03 * random.NextDouble())) * (random.Next(2) == 0 ? 1 : -1);
            var (paper, pigment) = (Papers[i / 6 % 3], i / 18 % 2 == 0);
            var found = DriftDiagnosis.Of(StripFit.Of(Read(paper, pigment, PrinterDrift.None, Strip, i), Read(paper, pigment, Of(cause, size), Strip, 50_000 + i))!);
            var what = found.Cause is DriftCause.Nothing ? "nothing" : !found.Tells ? "cannot tell" : found.Cause == cause ? "right" : found.Sure ? "wrong, as sure" : "wrong";
            tally[what] = tally.GetValueOrDefault(what) + 1;
        }

        Console.WriteLine($"{Drifts} single causes of 2 to 5 %: {string.Join(", ", tally.OrderByDescending(t => t.Value).Select(t => $"{t.Key} {t.Value}"))}");
    }

    private static void Corrections()
    {
        foreach (var cause in (DriftCause[])[DriftCause.Nothing, DriftCause.Paper, DriftCause.Cyan, DriftCause.Magenta, DriftCause.Yellow, DriftCause.AllInks])
        {
            var random = new Random(9);
            List<(double Before, double After, bool Applied)> found = [];
            for (var i = 0; i < (cause is DriftCause.Nothing ? 60 : 20); i++)
            {
                var (paper, pigment, goal) = (Papers[i % 3], i / 3 % 2 == 0, 0.6 + (0.6 * random.NextDouble()));
                var drift = Sized(paper, pigment, cause, goal, random.Next(2) == 0 ? 1 : -1, out var before);
                var reference = Read(paper, pigment, PrinterDrift.None, Chart, i);
                var corrected = DriftCorrection.Of(reference, Read(paper, pigment, drift, Strip, 70_000 + i))!;
                // What the correction changed, added to the true reference: the noise of the chart is not its fault.
                var (was, now) = (Clean(paper, pigment, PrinterDrift.None), Clean(paper, pigment, drift));
                found.Add((before, now.Select((n, p) => CieDe2000.Between(n, Plus(was[p], corrected.Chart.Patches[p].Lab, reference.Patches[p].Lab)).Value).Average(), corrected.Applied));
            }

            Console.WriteLine($"{cause}: {found.Count(f => f.Applied)} of {found.Count} corrected; mean dE00 of the chart {found.Average(f => f.Before):0.00} before, {found.Average(f => f.After):0.000} after, {found.Max(f => f.After):0.000} at most");
        }
    }

    // Two real charts of one paper from two days: the patches they share, one as the strip of the other.
    private static void Real(string folder)
    {
        if (!Directory.Exists(folder))
        {
            Console.WriteLine($"{folder} is not here: no real days.");
            return;
        }

        MeasurementSet Of(string file) => MeasurementFile.Read(File.ReadAllBytes($"{folder}/{file}.txt")).Set!;
        var (one, other) = (Of("matte_A_2420_M0"), Of("matte_C1_1019_M0"));
        foreach (var (reference, day, name) in ((MeasurementSet, MeasurementSet, string)[])[(one, other, "A, then C1"), (other, one, "C1, then A")])
        {
            var known = reference.Averaged().Select(p => string.Join(' ', p.Device)).ToHashSet();
            var strip = day with { Patches = [.. day.Patches.Where(p => known.Contains(string.Join(' ', p.Device)))] };
            var corrected = DriftCorrection.Of(reference, strip)!;
            Console.WriteLine($"real days, {name}: {strip.Averaged().Length} patches; {corrected.Before.Value:0.00} before, {corrected.After.Value:0.00} by the best correction, F {corrected.Evidence:0.0}: {(corrected.Applied ? "corrected" : "nothing is changed, and both numbers are said")}; cause: {DriftDiagnosis.Of(StripFit.Of(reference, strip)!).Cause}");
        }
    }

    private static PrinterDrift Sized(InventedPaper paper, bool pigment, DriftCause cause, double goal, int sign, out double before)
    {
        var (was, size) = (Clean(paper, pigment, PrinterDrift.None), 0.03 * (cause is DriftCause.Paper ? 1 : sign)); // paper only yellows
        before = 0;
        for (var round = 0; cause is not DriftCause.Nothing && round < 5; round++)
        {
            size = Math.Clamp(size, cause is DriftCause.Paper ? 0 : -0.09, cause is DriftCause.Paper ? 0.25 : 0.09);
            before = Clean(paper, pigment, Of(cause, size)).Select((n, p) => CieDe2000.Between(n, was[p]).Value).Average();
            size *= goal / before;
        }

        size = Math.Clamp(size, cause is DriftCause.Paper ? 0 : -0.09, cause is DriftCause.Paper ? 0.25 : 0.09);
        var drift = Of(cause, size);
        before = Clean(paper, pigment, drift).Select((n, p) => CieDe2000.Between(n, was[p]).Value).Average();
        return drift;
    }

    private static PrinterDrift Of(DriftCause cause, double size) => cause switch
    {
        DriftCause.Paper => new(PaperTint: size),
        DriftCause.Cyan => new(CyanGain: size),
        DriftCause.Magenta => new(MagentaGain: size),
        DriftCause.Yellow => new(YellowGain: size),
        DriftCause.Black => new(BlackGain: size),
        DriftCause.AllInks => new(AllInk: size),
        _ => PrinterDrift.None,
    };

    private static MeasurementSet Read(InventedPaper paper, bool pigment, PrinterDrift drift, double[][] device, int seed) =>
        InventedPrinter.Read(InventedPrinter.On(paper, pigment, drift: drift), device, seed);

    private static Lab[] Clean(InventedPaper paper, bool pigment, PrinterDrift drift)
    {
        var printer = InventedPrinter.On(paper, pigment, drift: drift);
        return [.. Chart.Select(d => TristimulusWeights.D50.ToLab(printer.Print(d)))];
    }

    private static Lab Plus(Lab clean, Lab to, Lab from) => new(clean.L + to.L - from.L, clean.A + to.A - from.A, clean.B + to.B - from.B);
}
