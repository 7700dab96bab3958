using System.Diagnostics;

namespace Goodsheet.Cli.Tests;

/// <summary>The real program, run for one verb that ends.</summary>
internal static class OneVerb
{
    public static async Task<(int Exit, string Output, string Error)> RunAsync(IEnumerable<string> words, string? input = null)
    {
        using var process = Process.Start(new ProcessStartInfo(RunningRoom.Program, words)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = "/",
        })!;
        if (input is not null)
        {
            await process.StandardInput.WriteLineAsync(input);
        }

        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, await output, await error);
    }
}
