using System.Diagnostics;
using Goodsheet.Room.Buying;

namespace Goodsheet.Bench.Buying;

/// <summary>
/// `stock rooms [ROOMS] [YEARS]`: invented rooms run for years: is what was promised given, and how much less stock does it take than
/// so many boxes of everything. `stock speed`: room-years a minute, and 5,000 items planned on one core.
/// </summary>
internal static class StockBench
{
    private const double FillRate = 0.98;
    private const int WarmUp = 365;
    private const int MostBoxes = 40;

    public static int Run(string[] args)
    {
        if (args.FirstOrDefault() == "speed")
        {
            Speed();
            return 0;
        }

        Rooms(args.Length > 1 ? Number(args[1]) : 200, args.Length > 2 ? Number(args[2]) : 20);
        return 0;
    }

    private static void Rooms(int rooms, int years)
    {
        Console.WriteLine($"\n## {rooms} invented rooms, {years} years each after one of warm-up, {FillRate:0 %} asked for\n");
        using var process = Process.GetCurrentProcess();
        var found = new Found[rooms];
        Parallel.For(0, rooms, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed => found[seed] = Of(seed + 1, years));
        var within = found.Count(f => Math.Abs(f.Given - f.Promised) <= 0.01);
        var (less, met) = (found.Select(f => 1 - (f.Stock / f.BoxStock)).Order().ToArray(), found.Select(f => f.Given - f.Promised).Order().ToArray());
        Console.WriteLine("| | |\n|---|---|");
        Console.WriteLine($"| given within 1 point of promised | {within} of {rooms} rooms ({100.0 * within / rooms:0.0} %) |");
        Console.WriteLine($"| given less promised, points: least, 5 %, middle, 95 %, most | {string.Join(", ", new[] { 0, 0.05, 0.5, 0.95, 1 }.Select(p => $"{100 * met[(int)(p * (rooms - 1))]:0.00}"))} |");
        Console.WriteLine($"| given, promised, average of the rooms | {found.Average(f => f.Given):0.0000}, {found.Average(f => f.Promised):0.0000} |");
        Console.WriteLine($"| stock value under that of the fixed boxes, all rooms together | {100 * (1 - (found.Sum(f => f.Stock) / found.Sum(f => f.BoxStock))):0.0} % |");
        Console.WriteLine($"| the same room by room: least, 5 %, middle, 95 %, most | {string.Join(", ", new[] { 0, 0.05, 0.5, 0.95, 1 }.Select(p => $"{100 * less[(int)(p * (rooms - 1))]:0.0} %"))} |");
        Console.WriteLine($"| rooms at 15 % or more | {less.Count(l => l >= 0.15)} of {rooms} |");
        Console.WriteLine($"| boxes of each that first give as much | {string.Join(", ", found.GroupBy(f => f.Boxes).OrderBy(g => g.Key).Select(g => $"{g.Key}: {g.Count()} rooms"))} |");
        Console.WriteLine($"| processor time | {process.TotalProcessorTime.TotalSeconds:0} s |");
    }

    private static Found Of(int seed, int years)
    {
        var invented = new InventedRoom(seed);
        var own = new RoomRun(invented.Room, new(FillRate), WarmUp, 365 * years).Run(invented.Ahead(seed), seed);
        for (var boxes = 1; ; boxes++)
        {
            var fixedBoxes = new RoomRun(invented.Room, new(FillRate) { BoxesOfEach = boxes }, WarmUp, 365 * years).Run(invented.Ahead(seed), seed);
            if (fixedBoxes.FillRate >= own.FillRate || boxes == MostBoxes)
            {
                return new(own.PromisedFill, own.FillRate, own.StockValue, boxes, fixedBoxes.StockValue);
            }
        }
    }

    private static void Speed()
    {
        var invented = new InventedRoom(7, items: 30);
        var run = new RoomRun(invented.Room, new(FillRate), 0, 365);
        var weeks = new PastWeeks(invented.Room.Items.Select(i => i.Past));
        run.Run(weeks.Ahead(1), 1);
        var clock = Stopwatch.StartNew();
        Parallel.For(0, 400, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed => run.Run(weeks.Ahead(seed), seed));
        Console.WriteLine($"{400 / clock.Elapsed.TotalMinutes:0} room-years a minute on two cores, 30 items");

        var pasts = Enumerable.Range(0, 5_000).Select(i => invented.Room.Items[i % 30]).ToArray();
        var today = invented.Room.Today;
        var promise = new Promise(today, today.AddDays(3), default, today, today.AddDays(4));
        var times = new double[5];
        for (var round = 0; round < times.Length; round++)
        {
            using var process = Process.GetCurrentProcess();
            var begin = process.TotalProcessorTime;
            foreach (var item in pasts)
            {
                var goes = ItemDemand.Of([.. item.Past], today.AddDays(-1));
                Reorder.Of(
                    item.Need with { PerDay = goes.PerDay, VariancePerDay = goes.VariancePerDay, RateVariance = goes.RateVariance, Week = goes.Week },
                    promise, today, FillRate);
            }

            process.Refresh();
            times[round] = (process.TotalProcessorTime - begin).TotalSeconds;
        }

        Console.WriteLine($"5,000 items planned, method chosen by back-test each: {times.Order().ElementAt(2):0.000} s of one core (middle of 5)");
    }

    private static int Number(string text) => int.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    private sealed record Found(double Promised, double Given, double Stock, int Boxes, double BoxStock);
}
