using System.Text.Json;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Cli.Tests.Papers;

/// <summary><c>paper</c>, <c>instrument</c>, <c>strip</c> and the test sheet of <c>chart make</c>, as they are run.</summary>
public sealed class ProvingVerbsTest : IDisposable
{
    private static readonly InventedPaper Paper = new() { White = 0.89, Warmth = 0.04, Brightener = 0.14, Surface = 0.02 };

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-proving-");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task A_paper_is_assessed_from_files_with_brightener_and_opacity()
    {
        var (with, without, over) = (await WriteAsync("m1", Paper, MCondition.M1), await WriteAsync("m2", Paper, MCondition.M2), await WriteAsync("black", Paper with { White = 0.82 }, MCondition.M1));
        var said = await OneVerb.RunAsync(["paper", "assess", with, "--uv-excluded", without, "--over-black", over, "--class", "Matte"]);
        Assert.Equal((0, ""), (said.Exit, said.Error));
        Assert.Contains("D-max", said.Output);
        Assert.Contains("Opacity 9", said.Output);
        var json = JsonDocument.Parse((await OneVerb.RunAsync(["paper", "assess", with, "--uv-excluded", without, "--json"])).Output).RootElement;
        Assert.True(json.GetProperty("uvShift").GetDouble() > 1);
        Assert.True(json.GetProperty("gamutVolume").GetDouble() > 100_000);
        var alike = await OneVerb.RunAsync(["paper", "assess", with, "--uv-excluded", with]);
        Assert.Equal(2, alike.Exit);
        Assert.Contains("not such a pair", alike.Error);
    }

    [Fact]
    public async Task The_line_up_of_an_empty_room_and_two_instruments_and_a_strip_are_told_and_a_bad_one_refused()
    {
        var empty = await OneVerb.RunAsync(["paper", "line-up", "--room", Path.Combine(folder.FullName, "room")]);
        Assert.Equal(0, empty.Exit);
        Assert.Contains("Nothing was ordered", empty.Output);
        Assert.Equal(2, (await OneVerb.RunAsync(["paper", "line-up", "--loss", "-1", "--room", Path.Combine(folder.FullName, "room")])).Exit);

        var (one, other, without) = (await WriteAsync("one", Paper, MCondition.M1, 1), await WriteAsync("other", Paper, MCondition.M1, 2), await WriteAsync("m2", Paper, MCondition.M2));
        var instruments = await OneVerb.RunAsync(["instrument", "compare", one, other]);
        Assert.Equal(0, instruments.Exit);
        Assert.Contains("The second reads L*", instruments.Output);
        Assert.Contains("differs by itself", (await OneVerb.RunAsync(["instrument", "compare", one, without])).Error);

        var strip = await OneVerb.RunAsync(["strip", "check", one, other]);
        Assert.Equal(0, strip.Exit);
        Assert.Contains("leave it alone", strip.Output);
        var refused = await OneVerb.RunAsync(["strip", "check", one, without]);
        Assert.Equal(2, refused.Exit);
        Assert.Contains("Read the strip again in M1", refused.Error);
        var taken = await OneVerb.RunAsync(["strip", "take", other, "--of", "3", "--room", Path.Combine(folder.FullName, "room")]);
        Assert.Equal(2, taken.Exit);
        Assert.Contains("no profile 3", taken.Error);
    }

    [Fact]
    public async Task A_test_sheet_of_ramps_is_made_before_the_first_chart()
    {
        var made = await OneVerb.RunAsync(["chart", "make", "try", "--settings", "--out", folder.FullName]);
        Assert.Equal((0, ""), (made.Exit, made.Error));
        Assert.True(File.Exists(Path.Combine(folder.FullName, "try-1.tif")));
        var reference = await File.ReadAllLinesAsync(Path.Combine(folder.FullName, "try.txt"), Cancel);
        Assert.Equal(79, reference.SkipWhile(l => l != "BEGIN_DATA").Skip(1).TakeWhile(l => l != "END_DATA").Count());
    }

    private async Task<string> WriteAsync(string name, InventedPaper paper, MCondition condition, int seed = 5)
    {
        double[][] chart = [.. Enumerable.Range(0, 64).Select(i => (double[])[i / 16 / 3.0, i / 4 % 4 / 3.0, i % 4 / 3.0])];
        var path = Path.Combine(folder.FullName, $"{name}.txt");
        await File.WriteAllTextAsync(path, CgatsWriter.Write(InventedPrinter.Read(InventedPrinter.On(paper, pigment: true, condition: condition), chart, seed, condition: condition), "invented", name), Cancel);
        return path;
    }
}
