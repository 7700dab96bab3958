using System.Diagnostics;
using System.Globalization;
using Goodsheet.Room.Runs;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Bench.Sequencing;

/// <summary>
/// `sequencing machine [SECONDS] [SEEDS] [FIRST] [INSTANCES]`: published instances of one machine with setups, against the best values known.
/// `sequencing day`: an invented day of 80 runs on 4 printers, planned and planned again.
/// </summary>
internal static class SequencingBench
{
    private static readonly string Folder = Path.Combine("..", "shared", "data", "sequencing");

    public static int Run(string[] args)
    {
        if (args.FirstOrDefault() == "day")
        {
            DayBench.Run();
            return 0;
        }

        if (!Directory.Exists(Folder))
        {
            Console.Error.WriteLine($"The published instances are not here ({Folder}); run from the project's root beside them.");
            return 1;
        }

        var seconds = args.Length > 1 ? double.Parse(args[1], CultureInfo.InvariantCulture) : 10;
        var seeds = args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : 5;
        var first = args.Length > 3 ? int.Parse(args[3], CultureInfo.InvariantCulture) : 1;
        var only = args.Length > 4 ? args[4].Split(',') : null;
        Console.WriteLine($"\n## One machine with setups, weighted tardiness, {seconds} s of CPU, seeds {first} to {first + seeds - 1}\n");
        Console.WriteLine("| instance | best known | start | reached, by seed | s to the best | exchanges a second |\n|---|---|---|---|---|---|");
        foreach (var row in File.ReadLines(Path.Combine(Folder, "wtsds_best_known_partial.csv")).Skip(1).Select(l => l.Split(',')).Where(f => only?.Contains(f[0]) ?? true))
        {
            var file = Path.Combine(Folder, "wtsds", $"wt_sds_{row[0]}.instance");
            if (!File.Exists(file))
            {
                Console.WriteLine($"| {row[0]} | {row[1]} | the instance is not in the folder | | | |");
                continue;
            }

            var start = OneMachine.Read(file).Cost;
            var known = double.Parse(row[1], CultureInfo.InvariantCulture);
            var all = Enumerable.Range(first, seeds).Select(seed => One(file, seed, seconds, known)).ToArray();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {row[0]} | {row[1]} | {start:0} | {string.Join(" ", all.Select(a => $"{a.Best:0}"))} | {string.Join(" ", all.Select(a => $"{a.At:0.0}"))} | {all.Average(a => a.Pace):0} |"));
        }

        return 0;
    }

    private static (double Best, double At, double Pace) One(string file, int seed, double seconds, double known)
    {
        var machine = OneMachine.Read(file);
        using var process = Process.GetCurrentProcess();
        var begin = process.TotalProcessorTime.TotalSeconds;
        var search = new OrderSearch<OneMachine>(machine, seed);
        var (best, at, used) = (search.Best, 0.0, 0.0);
        search.Run(known, tried =>
        {
            if ((tried & 0xFFF) < 64)
            {
                process.Refresh();
                used = process.TotalProcessorTime.TotalSeconds - begin;
                if (search.Best < best)
                {
                    (best, at) = (search.Best, used);
                }
            }

            return used > seconds;
        });
        process.Refresh();
        used = process.TotalProcessorTime.TotalSeconds - begin;
        return machine.Plainly() == (long)search.Best
            ? (search.Best, search.Best < best ? used : at, search.Tried / Math.Max(used, 0.001))
            : throw new InvalidOperationException($"{file}: the cost counted plainly differs.");
    }
}
