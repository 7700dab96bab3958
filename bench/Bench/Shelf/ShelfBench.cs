using System.Diagnostics;
using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.Bench.Shelf;

/// <summary>How soon the shelf answers with ten years behind it: <c>shelf [MOVES] [PROGRAM]</c>.</summary>
/// <remarks>Asked in this process (the use case alone) and of the real program in a process of its own, over loopback.</remarks>
internal static class ShelfBench
{
    private const int Rounds = 40;
    private const int Draws = 40;

    public static int Run(string[] args)
    {
        var moves = args.Length > 0 ? int.Parse(args[0], System.Globalization.CultureInfo.InvariantCulture) : 1_000_000;
        var program = args.Length > 1 ? args[1] : Path.GetFullPath(Path.Combine(Here(), "../../../artifacts/bin/Cli/release/goodsheet"));
        var folder = Directory.CreateTempSubdirectory("goodsheet-bench-");
        try
        {
            var store = RoomStore.InFile(Path.Combine(folder.FullName, "room.db"));
            var watch = Stopwatch.StartNew();
            using (var years = new TenYears(store, moves))
            {
                var written = years.WriteAsync().GetAwaiter().GetResult();
                Console.WriteLine($"{written} moves in {years.Lots} lots were written in {watch.Elapsed.TotalSeconds:0.0} s.");
            }

            Console.WriteLine();
            Console.WriteLine("| what | processor time a time, ms | median, ms | 95th percentile, ms |");
            Console.WriteLine("|---|---|---|---|");
            var clock = TimeProvider.System;
            var random = new Random(1);
            var shelf = new ShowShelf(store, clock).RunAsync(new()).GetAwaiter().GetResult();
            Say("the shelf, use case alone", Rounds, () => new ShowShelf(store, clock).RunAsync(new()));
            var lot = shelf.Lots.MaxBy(l => l.OnShelf)!.Lot;
            Say("one lot, use case alone", Rounds, () => new ShowLot(store).RunAsync(lot));
            Say("a count, written through to the disk", Draws, () => new CountLot(store, clock).RunAsync(new(CommandId.New(), new PersonName("Mira"), lot, random.Next(1, 90))));
            SqliteConnection.ClearAllPools();
            Ask(program, folder.FullName, lot.Value);
            return 0;
        }
        finally
        {
            SqliteConnection.ClearAllPools();
            folder.Delete(recursive: true);
        }
    }

    private static void Ask(string program, string folder, string lot)
    {
        using var process = Process.Start(new ProcessStartInfo(program, ["serve", "--room", folder, "--urls", "http://127.0.0.1:0"]) { RedirectStandardOutput = true })!;
        try
        {
            var line = process.StandardOutput.ReadLine() ?? throw new InvalidOperationException("It ended before it was open.");
            using var http = new HttpClient { BaseAddress = new(line[(line.LastIndexOf(' ') + 1)..]) };
            foreach (var page in (string[])["/shelf", $"/shelf/lots/{lot}", "/", "/money/stock"])
            {
                Say($"page {page}", Rounds, () => http.GetByteArrayAsync(page), process);
            }
        }
        finally
        {
            process.Kill();
            process.WaitForExit();
        }
    }

    private static void Say(string what, int rounds, Func<Task> ask, Process? served = null)
    {
        for (var i = 0; i < 5; i++)
        {
            ask().GetAwaiter().GetResult(); // warms it
        }

        using var own = Process.GetCurrentProcess();
        var answers = served ?? own;
        answers.Refresh();
        var before = answers.TotalProcessorTime;
        var times = new List<double>();
        for (var i = 0; i < rounds; i++)
        {
            var begun = Stopwatch.GetTimestamp();
            ask().GetAwaiter().GetResult();
            times.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }

        answers.Refresh();
        var processor = (answers.TotalProcessorTime - before).TotalMilliseconds / rounds;
        times.Sort();
        Console.WriteLine($"| {what} | {processor:0.0} | {times[times.Count / 2]:0.0} | {times[(int)(0.95 * (times.Count - 1))]:0.0} |");
    }

    private static string Here([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
