using System.Diagnostics;
using System.Text.Json;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Imaging;

namespace Goodsheet.Cli.Tests.Images;

public sealed class ImageVerbsTest : IDisposable
{
    private const int Refused = 2;

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-image-").FullName;

    public ImageVerbsTest() =>
        File.WriteAllBytes(At("paper.icc"), IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), IccVersion.V4));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Prepare_makes_the_exact_size_and_says_so()
    {
        var picture = Picture(600, 400);
        var (exit, output, error) = await OneVerb.RunAsync(
            ["image", "prepare", picture, "--profile", At("paper.icc"), "--intent", "relative", "--bpc", "--size", "60x40mm", "--ppi", "360", "--border", "10mm", "--out", At("out.tif"), "--json"]);

        Assert.True(exit == 0, error);
        var said = JsonDocument.Parse(output).RootElement;
        Assert.Equal((1134, 851), (said.GetProperty("pixelsWide").GetInt32(), said.GetProperty("pixelsHigh").GetInt32())); // 850 and 567 with 142 on each side
        var file = ImageFile.Probe(At("out.tif")).Value!;
        Assert.Equal((1134, 851, 16, 3), (file.Width, file.Height, file.Depth, file.Channels));
        Assert.Equal(File.ReadAllBytes(At("paper.icc")), file.Profile);
        Assert.Contains("100 %", error, StringComparison.Ordinal); // progress
    }

    [Fact]
    public async Task Check_says_what_will_go_wrong()
    {
        var (exit, output, _) = await OneVerb.RunAsync(["image", "check", Picture(600, 400), "--profile", At("paper.icc"), "--size", "600x400mm", "--json"]);
        Assert.Equal(0, exit);
        var kinds = JsonDocument.Parse(output).RootElement.GetProperty("findings").EnumerateArray().Select(f => f.GetProperty("kind").GetString()).ToList();
        Assert.Contains("too few pixels", kinds);
        Assert.Contains("no profile in the file", kinds);
    }

    [Fact]
    public async Task A_prepared_file_brought_in_again_is_told_by_its_profile()
    {
        var prepare = await OneVerb.RunAsync(["image", "prepare", Picture(600, 400), "--profile", At("paper.icc"), "--size", "60x40mm", "--wrap", "5mm", "--border", "10mm", "--out", At("out.tif")]);
        Assert.True(prepare.Exit == 0, prepare.Error);
        var file = ImageFile.Probe(At("out.tif")).Value!;
        Assert.Equal((1276, 993), (file.Width, file.Height)); // 850 and 567 with 71 of wrap and 142 of border on each side

        var (exit, output, _) = await OneVerb.RunAsync(["image", "check", At("out.tif"), "--profile", At("paper.icc"), "--size", "60x40mm", "--json"]);
        Assert.Equal(0, exit);
        Assert.Contains("profile of a printer", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("-60x40mm", "--size")]
    [InlineData("60", "--size")]
    [InlineData("60x40mm", "--ppi", "0")]
    [InlineData("60x40mm", "--border", "-1mm")]
    [InlineData("60x40mm", "--wrap", "41mm")]
    public async Task Sizes_that_cannot_be_are_refused_and_nothing_is_written(string size, string blamed, string? value = null)
    {
        string[] more = value is null ? [] : [blamed, value];
        var (exit, _, error) = await OneVerb.RunAsync(
            ["image", "prepare", Picture(60, 40), "--profile", At("paper.icc"), "--size", size, "--out", At("out.tif"), .. more]);
        Assert.NotEqual(0, exit);
        Assert.NotEmpty(error);
        Assert.False(File.Exists(At("out.tif")));
    }

    [Fact]
    public async Task A_name_that_ends_in_pdf_makes_a_pdf()
    {
        var (exit, _, error) = await OneVerb.RunAsync(["image", "prepare", Picture(600, 400), "--profile", At("paper.icc"), "--size", "60x40mm", "--border", "10mm", "--out", At("out.pdf")]);
        Assert.True(exit == 0, error);
        Assert.Equal("%PDF-1.6", System.Text.Encoding.ASCII.GetString(File.ReadAllBytes(At("out.pdf")), 0, 8));
        Assert.Equal(["in-600.tif", "out.pdf", "paper.icc"], Directory.GetFiles(folder).Select(Path.GetFileName).Order());
    }

    [Fact]
    public async Task A_strip_lies_where_it_was_said_and_else_where_most_is_to_be_seen()
    {
        string[] strip = ["image", "strip", Picture(600, 400), "--profile", At("paper.icc"), "--size", "600x400mm", "--ppi", "100", "--strip", "80x50mm", "--json"];
        var (exit, output, error) = await OneVerb.RunAsync([.. strip, "--at", "120x80mm", "--out", At("said.tif")]);
        Assert.True(exit == 0, error);
        var said = JsonDocument.Parse(output).RootElement;
        Assert.Equal((120, 80), (said.GetProperty("xMm").GetDouble(), said.GetProperty("yMm").GetDouble()));
        Assert.Equal((0, true), ((await OneVerb.RunAsync([.. strip, "--out", At("proposed.tif")])).Exit, File.Exists(At("proposed.tif"))));
        Assert.Equal(Refused, (await OneVerb.RunAsync([.. strip, "--at", "700x80mm", "--out", At("outside.tif")])).Exit);
        Assert.False(File.Exists(At("outside.tif")));
    }

    [Fact]
    public async Task Tiles_are_told_without_a_folder_and_written_with_one()
    {
        string[] tiles = ["image", "tiles", Picture(600, 400), "--profile", At("paper.icc"), "--size", "900x600mm", "--ppi", "50", "--paper", "610mm", "--json"];
        var (exit, output, error) = await OneVerb.RunAsync(tiles);
        Assert.True(exit == 0, error);
        var told = JsonDocument.Parse(output).RootElement;
        Assert.Equal(2, told.GetProperty("tiles").GetArrayLength());
        Assert.Equal(600, told.GetProperty("tiles").EnumerateArray().Sum(t => t.GetProperty("showsHeightMm").GetDouble()) * (told.GetProperty("rows").GetInt32() == 2 ? 1 : 0.5), 0.001);
        var folder = Directory.CreateDirectory(At("tiles")).FullName;
        Assert.Equal(0, (await OneVerb.RunAsync([.. tiles, "--out", folder])).Exit);
        Assert.Equal(["in-600-tile-1-of-2.tif", "in-600-tile-2-of-2.tif", "in-600-tiles.pdf"], Directory.GetFiles(folder).Select(Path.GetFileName).Order());
    }

    [Fact]
    public async Task A_sheet_of_proofs_has_a_label_for_each()
    {
        string[] proofs = ["image", "proofs", Picture(600, 400), "--profile", At("paper.icc"), "--sheet", "200x287mm", "--ppi", "72", "--json"];
        var (exit, output, error) = await OneVerb.RunAsync([.. proofs, "--out", At("intents.tif")]);
        Assert.True(exit == 0, error);
        Assert.Equal(8, JsonDocument.Parse(output).RootElement.GetProperty("proofs").GetArrayLength());
        File.Copy(At("paper.icc"), At("another.icc"));
        var papers = await OneVerb.RunAsync([.. proofs, "--other", At("another.icc"), "--out", At("papers.pdf")]);
        Assert.True(papers.Exit == 0, papers.Error);
        Assert.Equal(["paper as it is", "As on another"], JsonDocument.Parse(papers.Output).RootElement.GetProperty("proofs").EnumerateArray().Select(p => p.GetString()));
    }

    // A real disk that is too small: three megabytes of memory, mounted for this process alone.
    [Fact]
    public async Task On_a_full_disk_prepare_says_what_it_needs_and_leaves_what_was_there()
    {
        var disk = Directory.CreateDirectory(At("small")).FullName;
        var script =
            $"mount -t tmpfs -o size=3m tmpfs '{disk}' && echo earlier > '{disk}/out.tif' && "
            + $"'{RunningRoom.Program}' image prepare '{Picture(600, 400)}' --profile '{At("paper.icc")}' --size 100x80mm --ppi 360 --out '{disk}/out.tif'; "
            + $"echo \"exit $?\"; ls -A '{disk}'; cat '{disk}/out.tif'";
        using var process = Process.Start(new ProcessStartInfo("unshare", ["--map-root-user", "--mount", "sh", "-c", script])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        var error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        var output = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);

        Assert.Equal([$"exit {Refused}", "out.tif", "earlier"], output.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("The disk has no room: 9.6 MB are needed", await error, StringComparison.Ordinal);
        Assert.Contains("Nothing was written.", await error, StringComparison.Ordinal);
    }

    private string At(string name) => Path.Combine(folder, name);

    private string Picture(int width, int height)
    {
        var path = At($"in-{width}.tif");
        if (!File.Exists(path))
        {
            DrawnTiff.Write(path, width, height, 3, 300, (y, row) =>
            {
                for (var i = 0; i < row.Length; i++)
                {
                    row[i] = (ushort)((i * 40_000L / row.Length) + (y * 20_000L / height));
                }
            });
        }

        return path;
    }
}
