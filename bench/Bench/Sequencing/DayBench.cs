using System.Diagnostics;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.Bench.Sequencing;

/// <summary>An invented day of 80 runs on 4 printers: what 300 ms bring, set against 10 s, and what planning again takes.</summary>
internal static class DayBench
{
    private const int Runs = 80;
    private const int Printers = 4;
    private const int Days = 5;

    public static void Run()
    {
        Console.WriteLine($"\n## {Runs} invented runs on {Printers} printers, wall time, one core\n");
        Console.WriteLine("| day | cost at the start | at 0.3 s | at 10 s | late runs: start, 0.3 s, 10 s | exchanges in 0.3 s | again in 0.25 s after the first runs began |\n|---|---|---|---|---|---|---|");
        for (var day = 1; day <= Days; day++)
        {
            var work = Invented(day);
            var start = DayPlanner.Plan(work, null, day, _ => true).Value!;
            var (quick, tried, _) = Planned(work, null, day, 300);
            var (slow, _, _) = Planned(work, null, day, 10_000);
            var (again, _, took) = Planned(work with { Printers = [.. work.Printers.Select(p => p with { FreeAt = p.FreeAt + 25 })] }, quick.Order, day, 250);
            var moved = again.Order.Zip(quick.Order).Sum(l => l.First.Zip(l.Second).Count(p => p.First != p.Second));
            Console.WriteLine($"| {day} | {start.Cost:0} | {quick.Cost:0} | {slow.Cost:0} | {start.LateRuns} {quick.LateRuns} {slow.LateRuns} | {tried} | {took:0} ms, {moved} runs moved |");
        }
    }

    private static (DayPlan Plan, long Tried, double Milliseconds) Planned(DayWork work, IReadOnlyList<IReadOnlyList<int>>? present, int seed, double milliseconds)
    {
        var clock = Stopwatch.StartNew();
        long last = 0;
        var plan = DayPlanner.Plan(work, present, seed, tried => (last = tried) >= 0 && clock.Elapsed.TotalMilliseconds > milliseconds).Value!;
        return (plan, last, clock.Elapsed.TotalMilliseconds);
    }

    private static DayWork Invented(int seed)
    {
        var random = new Random(seed);
        return new(
            [.. Enumerable.Range(0, Printers).Select(i => new PrinterDay($"printer {i}", random.Next(30), i % 2 == 0 ? BlackInk.Photo : BlackInk.Matte, "paper 0", 8, 5, 6, 4, 3))],
            [.. Enumerable.Range(0, Runs).Select(i =>
            {
                var paper = random.Next(8);
                var minutes = random.Next(5, 45);
                return new RunToPlan($"{401 + i}", $"paper {paper}", paper % 2 == 0 ? BlackInk.Photo : BlackInk.Matte, (Feed)(1 + (paper % 4)),
                    [.. Enumerable.Range(0, Printers).Select(p => p != i % Printers && random.Next(3) == 0 ? null : (double?)minutes)],
                    0, random.Next(60, 700), 0.5 + random.NextDouble(), random.Next(4) * 20, random.Next(1, 4));
            })],
            new([(0, 540), (1440, 1980)], 3, 20, [], new(0.6, 0.4, 0.001, 2)));
    }
}
