using System.Diagnostics;

[assembly: AssemblyFixture(typeof(Goodsheet.Cli.Tests.MadeDemo))]

namespace Goodsheet.Cli.Tests;

/// <summary>One demonstration room for all tests that want one, made on the first asking and after a kill midway: it takes a minute.</summary>
public sealed class MadeDemo : IAsyncDisposable
{
    private readonly SemaphoreSlim one = new(1);
    private readonly DirectoryInfo parent = Directory.CreateTempSubdirectory("goodsheet-demo-");
    private bool isMade;

    public string Folder => Path.Combine(parent.FullName, "room");

    /// <summary>What lay in the room's place, and beside it, after the making was killed midway and after it was done anew.</summary>
    public (bool RoomAfterKill, int LeftBeside) Seen { get; private set; }

    /// <summary>The program on a copy of the room, to change as a test likes.</summary>
    public async Task<RunningRoom> OpenCopyAsync(CancellationToken cancel)
    {
        await MakeAsync(cancel);
        var copy = Directory.CreateTempSubdirectory("goodsheet-copy-").FullName;
        foreach (var file in new DirectoryInfo(Folder).EnumerateFiles("*", SearchOption.AllDirectories))
        {
            var to = Path.Combine(copy, Path.GetRelativePath(Folder, file.FullName));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            file.CopyTo(to);
        }

        return await RunningRoom.OpenAsync(copy, demo: true);
    }

    public async Task MakeAsync(CancellationToken cancel)
    {
        await one.WaitAsync(cancel);
        try
        {
            if (isMade)
            {
                return;
            }

            using (var first = Process.Start(new ProcessStartInfo(RunningRoom.Program, ["serve", "--demo", "--room", Folder, "--urls", "http://127.0.0.1:0"]) { RedirectStandardError = true })!)
            {
                while (await first.StandardError.ReadLineAsync(cancel) is { } line && !line.Contains("half a year", StringComparison.Ordinal))
                {
                }

                await Task.Delay(300, cancel);
                first.Kill();
                await first.WaitForExitAsync(cancel);
            }

            var afterKill = Directory.Exists(Folder);
            await using (var second = await RunningRoom.OpenAsync(Folder, demo: true, keep: true))
            {
                await second.KillAsync();
            }

            Seen = (afterKill, parent.EnumerateDirectories("*.making").Count());
            isMade = true;
        }
        finally
        {
            one.Release();
        }
    }

    public ValueTask DisposeAsync()
    {
        parent.Delete(recursive: true);
        one.Dispose();
        return default;
    }
}
