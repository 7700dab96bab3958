using System.Diagnostics;
using System.Runtime.CompilerServices;

namespace Goodsheet.Bench.Today;

/// <summary>How soon Today and the other pages answer in the demonstration room: <c>today [PROGRAM]</c>.</summary>
/// <remarks>The real program in a process of its own, over loopback; each page asked often in turn, after a round that warms it.</remarks>
internal static class TodayBench
{
    private const int Rounds = 60;

    private static readonly string[] Pages = ["/", "/shelf", "/orders", "/runs", "/papers", "/printers", "/profiles", "/people"];

    public static int Run(string[] args)
    {
        var program = args.Length > 0 ? args[0] : Path.GetFullPath(Path.Combine(Here(), "../../../artifacts/bin/Cli/release/goodsheet"));
        var parent = Directory.CreateTempSubdirectory("goodsheet-bench-");
        var watch = Stopwatch.StartNew();
        using var process = Process.Start(new ProcessStartInfo(
            program, ["serve", "--demo", "--room", Path.Combine(parent.FullName, "room"), "--urls", "http://127.0.0.1:0"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        process.ErrorDataReceived += (_, e) => Console.Error.WriteLine(e.Data);
        process.BeginErrorReadLine();
        try
        {
            var line = process.StandardOutput.ReadLine() ?? throw new InvalidOperationException("It ended before it was open.");
            Console.WriteLine($"The demonstration room was made and opened in {watch.Elapsed.TotalSeconds:0.0} s, {process.TotalProcessorTime.TotalSeconds:0.0} s of processor.");
            Console.WriteLine();
            Ask(new(line[(line.LastIndexOf(' ') + 1)..]));
            return 0;
        }
        finally
        {
            process.Kill();
            process.WaitForExit();
            parent.Delete(recursive: true);
        }
    }

    private static void Ask(Uri address)
    {
        using var http = new HttpClient { BaseAddress = address };
        var times = Pages.ToDictionary(p => p, _ => new List<double>());
        var bytes = new Dictionary<string, int>();
        for (var round = 0; round <= Rounds; round++)
        {
            foreach (var page in Pages)
            {
                var watch = Stopwatch.GetTimestamp();
                var body = http.GetByteArrayAsync(page).GetAwaiter().GetResult();
                bytes[page] = body.Length;
                if (round > 0)
                {
                    times[page].Add(Stopwatch.GetElapsedTime(watch).TotalMilliseconds);
                }
            }
        }

        Console.WriteLine("| page | median, ms | 95th percentile, ms | kB |");
        Console.WriteLine("|---|---|---|---|");
        foreach (var page in Pages)
        {
            var sorted = times[page].Order().ToArray();
            Console.WriteLine($"| {page} | {sorted[sorted.Length / 2]:0.0} | {sorted[(int)(0.95 * (sorted.Length - 1))]:0.0} | {bytes[page] / 1000.0:0} |");
        }
    }

    private static string Here([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
