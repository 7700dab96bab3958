using System.Diagnostics;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Tests.Measurement;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests;

/// <summary>The samples that come with the library run as they are, on invented charts.</summary>
public sealed class SamplesTest : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-samples-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task MakeProfile_writes_a_sound_profile_and_says_what_it_is_worth()
    {
        var (chart, profile) = (Path.Combine(folder, "chart.txt"), Path.Combine(folder, "paper.icc"));
        MeasurementSet set = new(DeviceSpace.Grey, 1, MCondition.M1, [.. Enumerable.Range(0, 52).Select(i => new Patch($"{i}", [i / 51.0], new(10 + (85 * Math.Pow(i / 51.0, 0.8)), 0, 1)))]);
        await File.WriteAllTextAsync(chart, CgatsWriter.Write(set, "invented", "invented"), TestContext.Current.CancellationToken);
        var (exit, output) = await RunAsync("MakeProfile", chart, profile);
        Assert.Equal(0, exit);
        Assert.Contains("dE00", output, StringComparison.Ordinal);
        Assert.Empty(IccStructure.Findings(await File.ReadAllBytesAsync(profile, TestContext.Current.CancellationToken)));
    }

    [Fact]
    public async Task PaperUnderLights_tells_of_each_condition_and_refuses_what_is_no_chart()
    {
        var chart = Path.Combine(folder, "chart.cxf");
        await File.WriteAllTextAsync(chart, CxfSamples.Rgb("M0", "M2"), TestContext.Current.CancellationToken);
        var (exit, output) = await RunAsync("PaperUnderLights", chart);
        Assert.Equal(0, exit);
        Assert.Contains("WarmLamp", output, StringComparison.Ordinal);
        Assert.Contains("UvFreeGlass", output, StringComparison.Ordinal);
        await File.WriteAllTextAsync(chart, "hello", TestContext.Current.CancellationToken);
        Assert.Equal(2, (await RunAsync("PaperUnderLights", chart)).Exit);
    }

    private static async Task<(int Exit, string Output)> RunAsync(string sample, params string[] words)
    {
        // This test's own folder is artifacts/bin/Colour.Tests/<configuration>: the samples lie beside.
        var here = new DirectoryInfo(AppContext.BaseDirectory.TrimEnd(Path.DirectorySeparatorChar));
        var program = Directory.GetFiles(Path.Combine(here.Parent!.Parent!.FullName, sample, here.Name), $"*{sample}.dll").Single();
        using var process = Process.Start(new ProcessStartInfo("dotnet", [program, .. words]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var error = process.StandardError.ReadToEndAsync();
        var output = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, output + await error);
    }
}
