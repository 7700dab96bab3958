using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
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
            Paper(name, PaperReading.Of(set), PaperReading.Of(Read($"{name}_M2")));
            Console.WriteLine($"  repeats inside the chart: {Text(Repeatability.Within(set))}; leave one out: {Text(ErrorSummary.Of(PrinterModels.LeaveOneOut([set])))}");
            Plant(set);
            Mix(set);
        }

        Console.WriteLine($"C1 and A, shared device values: {Text(Repeatability.Between(Read("matte_C1_1019_M0"), Read("matte_A_2420_M0")))}");
        return 0;
    }

    private static void Paper(string name, PaperReading with, PaperReading without)
    {
        var (w, w2) = (with.White.Lab, without.White.Lab);
        Console.WriteLine($"{name}: white {w.L:0.0} {w.A:0.0} {w.B:0.0} (M2 {w2.L:0.0} {w2.A:0.0} {w2.B:0.0}), D-max {with.DMax:0.00}, "
            + $"whiteness {with.Whiteness!.Value.Whiteness:0.0}, tint {with.Whiteness.Value.Tint:0.0}, brightness {with.Brightness:0.0}; {with.BrightenerAgainst(without)}");
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
