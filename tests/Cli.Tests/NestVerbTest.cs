using System.Diagnostics;

namespace Goodsheet.Cli.Tests;

public sealed class NestVerbTest : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-nest-");

    public void Dispose() => folder.Delete(recursive: true);

    [Theory]
    [InlineData("--roll 610mm", 0)]
    [InlineData("--sheet 420x594mm --gutter 5mm --no-turn", 0)]
    [InlineData("--roll 200mm", 2)]
    [InlineData("--roll 610mm --sheet 420x594mm", 1)]
    [InlineData("", 1)]
    [InlineData("--roll=-610mm", 1)]
    [InlineData("--roll 610mm --seconds 601", 1)]
    public async Task The_exit_code_tells_done_from_wrong_use_and_refused(string words, int exit)
    {
        var list = Path.Combine(folder.FullName, "pieces.csv");
        var layout = Path.Combine(folder.FullName, "layout.json");
        await File.WriteAllTextAsync(list, "name,width_mm,height_mm,copies\nHarbour,297,420,2\n", TestContext.Current.CancellationToken);
        using var process = Process.Start(new ProcessStartInfo(
            RunningRoom.Program, ["nest", "--pieces", list, "--out", layout, "--seconds", "0.1", .. words.Split(' ', StringSplitOptions.RemoveEmptyEntries)])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        var said = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(exit, process.ExitCode);
        Assert.Equal(exit == 0, File.Exists(layout));
        Assert.Equal(exit == 0, said.Length == 0);
    }
}
