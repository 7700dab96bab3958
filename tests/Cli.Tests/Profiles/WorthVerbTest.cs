using System.Text.Json;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Cli.Tests.Profiles;

/// <summary><c>profile make</c>, <c>profile verify</c>, <c>profile older</c> and <c>profile worth</c>, as they are run.</summary>
public sealed class WorthVerbTest : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-worth-");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task What_a_profile_is_worth_is_written_as_PDF_and_CSV_and_the_profile_once_more_for_older_programs()
    {
        var chart = InventedPrinter.Read(InventedPrinter.On(new() { Surface = 0.02 }, pigment: true), [.. ChartDesign.First(DeviceSpace.Rgb, 120)], 1);
        await File.WriteAllTextAsync(At("chart.txt"), CgatsWriter.Write(chart, "invented", "chart"), Cancel);
        var made = await OneVerb.RunAsync(["profile", "make", At("chart.txt"), "--out", At("paper.icc"), "--grid", "9", "--pdf", At("made.pdf"), "--csv", At("made.csv")]);
        Assert.Equal(0, made.Exit);
        Assert.Contains("the greys' steps bend by", made.Output);
        Assert.StartsWith("%PDF", await File.ReadAllTextAsync(At("made.pdf"), Cancel));
        Assert.Contains("\"Patches it had not seen\"", await File.ReadAllTextAsync(At("made.csv"), Cancel));
        Assert.StartsWith("what,number,L*", await File.ReadAllTextAsync(At("made-gamut.csv"), Cancel));

        var judged = await OneVerb.RunAsync(["profile", "verify", At("paper.icc"), At("chart.txt"), "--pdf", At("judged.pdf"), "--json"]);
        Assert.Equal((0, ""), (judged.Exit, judged.Error));
        Assert.Equal(3, JsonDocument.Parse(judged.Output).RootElement.GetProperty("ramps").GetArrayLength());
        Assert.True(File.Exists(At("judged.pdf")));

        var older = await OneVerb.RunAsync(["profile", "older", At("paper.icc"), "--out", At("older.icc")]);
        Assert.Equal((0, ""), (older.Exit, older.Error));
        Assert.Equal(2, IccProfile.Read(await File.ReadAllBytesAsync(At("older.icc"), Cancel)).Profile!.Header.Major);
        var again = await OneVerb.RunAsync(["profile", "older", At("older.icc"), "--out", At("oldest.icc")]);
        Assert.Equal(2, again.Exit);
        Assert.Contains("version 2 already", again.Error);
        Assert.False(File.Exists(At("oldest.icc")));

        var none = await OneVerb.RunAsync(["profile", "worth", "7", "--pdf", At("none.pdf"), "--room", At("room")]);
        Assert.Equal(2, none.Exit);
        Assert.Contains("no profile 7", none.Error);
        Assert.False(File.Exists(At("none.pdf")));
    }

    private string At(string name) => Path.Combine(folder.FullName, name);
}
