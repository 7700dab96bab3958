using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.Room.Tests.Runs;

/// <summary>Days of work made up from a seed.</summary>
internal static class InventedDay
{
    public static DayWork Of(int runs, int printers, int seed)
    {
        var random = new Random(seed);
        var papers = Enumerable.Range(0, 6).Select(i => (Name: $"paper {i}", Black: i % 2 == 0 ? BlackInk.Photo : BlackInk.Matte, Feed: (Feed)(1 + (i % 4)))).ToArray();
        return new(
            [.. Enumerable.Range(0, printers).Select(i => new PrinterDay($"printer {i}", random.Next(30), i % 2 == 0 ? BlackInk.Photo : BlackInk.Matte, papers[i].Name, 8, 5, 6, 4, 3))],
            [.. Enumerable.Range(0, runs).Select(i =>
            {
                var paper = papers[random.Next(papers.Length)];
                var minutes = random.Next(5, 60);
                var on = Enumerable.Range(0, printers).Select(p => p != i % printers && random.Next(4) == 0 ? null : (double?)(minutes * (1 + (0.25 * p)))).ToArray();
                return new RunToPlan($"{401 + i}", paper.Name, paper.Black, paper.Feed, on, random.Next(3) == 0 ? random.Next(60) : 0, random.Next(5) == 0 ? double.PositiveInfinity : random.Next(60, 60 + (40 * runs / printers)), 0.5 + random.NextDouble(), random.Next(4) * 20, random.Next(1, 4));
            })],
            new([(0, 480), (1440, 1920)], 2, 6, [(40, 2)], new(0.6, 0.4, 0.001, 2)));
    }

    /// <summary>The same day, where so many of its runs want a test strip first.</summary>
    public static DayWork WithStrips(DayWork work, int strips)
    {
        var before = work.Runs.Take(strips).Select(r => r with
        {
            Key = $"strip of {r.Key}",
            MinutesOn = [.. r.MinutesOn.Select(m => m is null ? (double?)null : 3)],
            Ready = 0,
            Due = double.PositiveInfinity,
            DryMinutes = 0,
            DryPlaces = 0,
        });
        var after = work.Runs.Select((r, i) => i < strips ? r with { After = [work.Runs.Count + i], AfterMinutes = 20 } : r);
        return work with { Runs = [.. after, .. before] };
    }
}
