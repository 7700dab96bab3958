using System.Diagnostics;
using System.Globalization;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.Bench.Layout;

/// <summary>`layout strips|strips-c|strips-n|strips-t|bins|bins-fixed|bins-turned|cuts|excluded|shuffled [SECONDS] [EVERY]`: excess over the bound, bins used, and exact optima.</summary>
internal static class LayoutBench
{
    public static int Run(string[] args)
    {
        if (!Directory.Exists(Instance.Folder))
        {
            Console.Error.WriteLine($"The published instances are not here ({Instance.Folder}); run from the project's root beside them.");
            return 1;
        }

        var seconds = args.Length > 1 ? double.Parse(args[1], CultureInfo.InvariantCulture) : 1;
        var every = args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : 1;
        switch (args.FirstOrDefault())
        {
            case "strips":
                Strips("C", seconds, every);
                Strips("nt", seconds, every);
                return 0;
            case "strips-c" or "strips-n" or "strips-t":
                Strips(args[0] is "strips-c" ? "C" : args[0][^1..], seconds, every);
                return 0;
            case "bins":
                Bins(false, seconds, every);
                Bins(true, seconds, every);
                return 0;
            case "bins-fixed":
                Bins(false, seconds, every);
                return 0;
            case "bins-turned":
                Bins(true, seconds, every);
                return 0;
            case "cuts":
                Cuts();
                return 0;
            case "shuffled":
                Shuffled.Run();
                return 0;
            case "excluded":
                Excluded(seconds);
                return 0;
            default:
                Console.Error.WriteLine("layout strips|strips-c|strips-n|strips-t|bins|bins-fixed|bins-turned|cuts|excluded|shuffled [SECONDS] [EVERY]");
                return 1;
        }
    }

    /// <param name="kinds">First letters of the instances: C is Hopper and Turton's, which may turn, n and t are Hopper's, which may not.</param>
    private static void Strips(string kinds, double seconds, int every)
    {
        var (title, file, turn) = kinds == "C" ? ("Hopper-Turton, may turn", "strip-hopper-turton.csv", true) : ($"Hopper {kinds.ToUpperInvariant()}, fixed", "strip-hopper-t-n.csv", false);
        Console.WriteLine($"\n## {title}, {seconds} s of CPU each\n\n| instance | pieces | bound | height | excess % |\n|---|---|---|---|---|");
        var by = new Dictionary<string, List<double>>();
        foreach (var one in Instance.Read(file, turn).Where(i => kinds.Contains(i.Name[0], StringComparison.Ordinal)).Where((_, i) => i % every == 0))
        {
            var nest = Pack(one, Stock.Roll(Length.FromMicrometres(one.Width)), seconds);

            // By area, not the layout's own bound: that is the optimum once every way was tried.
            var bound = (long)((one.Area + one.Width - 1) / one.Width);
            var excess = 100.0 * (nest.Cost - bound) / bound;
            Console.WriteLine($"| {one.Name} | {one.Pieces.Count} | {bound} | {nest.Cost} | {excess:0.00} |");
            var kind = one.Name[..1];
            by.TryAdd(kind, []);
            by[kind].Add(excess);
        }

        foreach (var (kind, all) in by)
        {
            Console.WriteLine($"\n{kind}: mean excess {all.Average():0.00} % over {all.Count} instances");
        }
    }

    private static void Bins(bool turn, double seconds, int every)
    {
        Console.WriteLine($"\n## 500 bins instances, {(turn ? "may turn" : "fixed")}, {seconds} s of CPU each, every {every}\n");
        Console.WriteLine("| class, pieces | instances | bound by area | bins | best published, all 10 |\n|---|---|---|---|---|");
        var published = File.ReadLines(Path.Combine(Instance.Folder, turn ? "2bp_R_G_sum_of_bins_gdrr2021.csv" : "2bp_O_G_sum_of_bins_gdrr2021.csv")).Skip(1)
            .Select(l => l.Split(',')).ToDictionary(f => (int.Parse(f[0], CultureInfo.InvariantCulture), f[1]), f => int.Parse(f[2], CultureInfo.InvariantCulture));
        var (bins, count) = (0L, 0);
        foreach (var group in Instance.Read("bins-berkey-wang.csv", turn).Concat(Instance.Read("bins-martello-vigo.csv", turn)).GroupBy(ClassAndSize))
        {
            // Another one of each ten, so that a sample does not hang on how the instances were numbered.
            var chosen = group.Where((_, i) => (i + count) % every == 0).ToArray();
            var nests = chosen.Select(one => Pack(one, Stock.Sheet(Length.FromMicrometres(one.Width), Length.FromMicrometres(one.Height)), seconds)).ToArray();
            (bins, count) = (bins + nests.Sum(n => n.Cost), count + nests.Length);
            Console.WriteLine($"| {group.Key.Class}, {group.Key.Size} | {nests.Length} | {chosen.Zip(nests).Sum(p => p.Second.Bound)} | {nests.Sum(n => n.Cost)} | {published[group.Key]} |");
        }

        var all = published.Where(p => p.Key.Item2 != "All").Sum(p => p.Value);
        Console.WriteLine($"\nTotal {bins} bins over {count} instances; best published over all 500: {all}");

        // As "Class_01.2bp_100_10".
        static (int Class, string Size) ClassAndSize(Instance one) => (int.Parse(one.Name[6..8], CultureInfo.InvariantCulture), one.Name.Split('_')[2]);
    }

    private static void Cuts()
    {
        Console.WriteLine("\n## Most value from one sheet, exact\n\n| instance | fixed | s | may turn | s | published or by dynamic programming |\n|---|---|---|---|---|---|");
        var best = File.ReadLines(Path.Combine(Instance.Folder, "gcut_unconstrained_guillotine_opt.csv")).Skip(1)
            .Select(l => l.Split(',')).ToDictionary(f => f[0], f => $"{f[1]} / {f[2]}");
        var turned = Instance.Read("cut-gcut.csv", true).ToDictionary(i => i.Name);
        foreach (var one in Instance.Read("cut-gcut.csv", false))
        {
            var (a, b) = (Timed(one), Timed(turned[one.Name]));
            var verdict = best[one.Name] == $"{a.Value} / {b.Value}" ? "equal" : "DIFFERS";
            Console.WriteLine($"| {one.Name} | {a.Value} | {a.Seconds:0.000} | {b.Value} | {b.Seconds:0.000} | {best[one.Name]} {verdict} |");
        }

        static (int Value, double Seconds) Timed(Instance one)
        {
            var (width, height) = (Length.FromMicrometres(one.Width), Length.FromMicrometres(one.Height));
            var found = Enumerable.Range(0, one.Pieces.Count > 30 ? 1 : 5).Select(_ =>
            {
                var clock = Stopwatch.StartNew();
                var value = BestYield.Find(one.Pieces, one.Profits, width, height, Length.Zero).Value!.Value;
                return (value, clock.Elapsed.TotalSeconds);
            }).OrderBy(f => f.TotalSeconds).ToArray();
            return found[found.Length / 2];
        }
    }

    /// <summary>What no layout a trimmer can cut reaches on Hopper's T strips: so much that 2 % over all of them is out of reach.</summary>
    private static void Excluded(double seconds)
    {
        Console.WriteLine("\n## Hopper T, fixed: heights that were tried in every way\n\n| instance | pieces | height | rectangles | can be cut | s |\n|---|---|---|---|---|---|");
        foreach (var one in Instance.Read("strip-hopper-t-n.csv", false))
        {
            foreach (var height in Heights(one.Name))
            {
                var (begin, asked) = (ProcessorSeconds(), 0);
                var cut = new EveryCut(one, height, () => unchecked(++asked & 0xFFF) == 0 && ProcessorSeconds() - begin > seconds);
                var can = cut.Can() switch { true => "yes", false => "no", null => "not finished" };
                Console.WriteLine($"| {one.Name} | {one.Pieces.Count} | {height} | {cut.Rectangles} | {can} | {ProcessorSeconds() - begin:0.0} |");
            }
        }
    }

    // T1: one less than the product's own search of all ways gives, and that.
    private static int[] Heights(string name) => name switch
    {
        "t1a" or "t1c" => [213, 214],
        "t1b" => [211, 212],
        "t1d" => [246, 247],
        "t1e" => [220, 221],
        ['t', '2', ..] => [203],
        ['t', '3', ..] => [202],
        _ => [],
    };

    private static double ProcessorSeconds()
    {
        using var process = Process.GetCurrentProcess();
        return process.TotalProcessorTime.TotalSeconds;
    }

    internal static Nest Pack(Instance one, Stock stock, double seconds)
    {
        // Asking for the processor's time takes as long as a dozen turns, so it is asked every 2 ms, not every so many turns.
        var (clock, next, asked, begin, done) = (Stopwatch.StartNew(), 0L, 0, ProcessorSeconds(), false);
        var nest = NestPacker.Pack(one.Pieces, stock, 1, _ =>
        {
            if ((++asked & 15) == 0 && clock.ElapsedMilliseconds >= next)
            {
                (done, next) = (ProcessorSeconds() - begin > seconds, clock.ElapsedMilliseconds + 2);
            }

            return done;
        }).Value ?? throw new InvalidOperationException($"{one.Name} was refused.");
        var faults = LayoutVerifier.Check(nest);
        return faults.Count == 0 ? nest : throw new InvalidOperationException($"{one.Name}: {string.Join(' ', faults)}");
    }
}
