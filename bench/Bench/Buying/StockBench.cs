using System.Diagnostics;
using Goodsheet.Room.Buying;

namespace Goodsheet.Bench.Buying;

/// <summary>
/// `stock rooms ROOMS YEARS FILE`: invented rooms run for years: is what was promised given, and how much less stock does it take than
/// so many boxes of everything; rooms that FILE holds already are not run again. `stock speed`: processor time of a room-year, and of
/// 5,000 items planned.
/// </summary>
internal static class StockBench
{
    private const double FillRate = 0.98;
    private const int WarmUp = 365;
    private const int MostBoxes = 40;
    private const int Years = 400;

    public static int Run(string[] args)
    {
        if (args.FirstOrDefault() == "speed")
        {
            Speed();
            return 0;
        }

        Rooms(args.Length > 1 ? Number(args[1]) : 200, args.Length > 2 ? Number(args[2]) : 20, new(args.Length > 3 ? args[3] : "stock-rooms.csv"));
        return 0;
    }

    private static void Rooms(int rooms, int years, RoomsFile file)
    {
        var kept = file.Read();
        using var process = Process.GetCurrentProcess();
        Parallel.ForEach(
            Enumerable.Range(1, rooms).Where(seed => !kept.ContainsKey(seed)), new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed => file.Add(Of(seed, years)));
        RoomsFile.Room[] found = [.. file.Read().Values.Where(r => r.Seed <= rooms)];
        Console.WriteLine($"\n## {rooms} invented rooms, {years} years each after one of warm-up, {FillRate:0 %} asked for\n");
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
        Console.WriteLine($"| processor time of the {rooms - kept.Count} rooms run now | {process.TotalProcessorTime.TotalSeconds:0} s |");
    }

    private static RoomsFile.Room Of(int seed, int years)
    {
        var invented = new InventedRoom(seed);
        var days = 365 * years;
        var work = invented.Ahead(seed).Kept(WarmUp + days, invented.Room.Items.Count);
        var own = new RoomRun(invented.Room, new(FillRate), WarmUp, days).Run(work, seed);
        for (var boxes = 1; ; boxes++)
        {
            var fixedBoxes = new RoomRun(invented.Room, new(FillRate) { BoxesOfEach = boxes }, WarmUp, days).Run(work, seed);
            if (fixedBoxes.FillRate >= own.FillRate || boxes == MostBoxes)
            {
                return new(seed, own.PromisedFill, own.FillRate, own.StockValue, boxes, fixedBoxes.StockValue);
            }
        }
    }

    /// <summary>All ways of buying meet the same work: it is drawn once.</summary>
    private static DemandOfDay Kept(this DemandOfDay work, int days, int items)
    {
        var all = new long[days][];
        for (var day = 0; day < days; day++)
        {
            work(day, all[day] = new long[items]);
        }

        return (day, wanted) => all[day].CopyTo(wanted, 0);
    }

    private static void Speed()
    {
        var invented = new InventedRoom(7, items: 30);
        var run = new RoomRun(invented.Room, new(FillRate), 0, 365);
        var weeks = new PastWeeks(invented.Room.Items.Select(i => i.Past));
        run.Run(weeks.Ahead(1), 1);
        using var whole = Process.GetCurrentProcess();
        var (clock, start) = (Stopwatch.StartNew(), whole.TotalProcessorTime);
        Parallel.For(0, Years, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed => run.Run(weeks.Ahead(seed), seed));
        clock.Stop();
        whole.Refresh();
        var each = (whole.TotalProcessorTime - start) / Years;
        Console.WriteLine($"30 items: {each.TotalMilliseconds:0.0} ms of processor time a room-year, so {2 / each.TotalMinutes:0} a minute on two free cores; {Years / clock.Elapsed.TotalMinutes:0} a minute by the wall clock");

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

        Published();
        Console.WriteLine($"5,000 items planned, method chosen by back-test each: {times.Order().ElementAt(2):0.000} s of one core (middle of 5)");
    }

    /// <summary>The means of Zheng and Federgruen's 24 rows; that their results are the published ones is in the tests.</summary>
    private static void Published()
    {
        double[] means = [10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 21, 22, 23, 24, 51, 52, 59, 61, 63, 64];
        var times = new double[5];
        for (var round = 0; round < times.Length; round++)
        {
            var clock = Stopwatch.StartNew();
            foreach (var mean in means)
            {
                MinMaxPolicy.Find(64, 1, 9, CountDistribution.Poisson(mean));
            }

            times[round] = clock.Elapsed.TotalMilliseconds;
        }

        Console.WriteLine($"24 rows of least and most: {times.Order().ElementAt(2):0.0} ms together (middle of 5, the first {times[0]:0.0})");
    }

    private static int Number(string text) => int.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
