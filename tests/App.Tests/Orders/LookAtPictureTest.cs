using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Tests.Orders;

public sealed class LookAtPictureTest : IDisposable
{
    private const int Width = 300;
    private const int Height = 200;

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-look-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private FileShelf Files => new(Path.Combine(folder, "files"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Says_which_ends_are_clipped_and_which_colours_the_paper_does_not_hold_and_says_it_once()
    {
        // A third is clipped black, a third the strongest green there is, which no ink has; a third is mid grey.
        await using var press = await WithAsync((x, _) => x < 100 ? (0, 0, 0) : x < 200 ? (0, ushort.MaxValue, 0) : (30_000, 30_000, 30_000));
        await LookAsync(press);
        await LookAsync(press);

        await using var db = press.Store.Open();
        var findings = await db.Findings.OrderBy(f => f.Kind).ToListAsync(Cancel);
        Assert.Equal(["clipped darks", "clipped lights", "colours not held"], findings.Select(f => f.Kind));
        Assert.Contains("66.7", findings[0].Text, StringComparison.Ordinal); // red and blue lie at 0 in two thirds
        Assert.Contains("33.3", findings[1].Text, StringComparison.Ordinal);
        Assert.All(findings, f => Assert.Equal(Severity.ToKnow, f.Severity));
    }

    [Fact]
    public async Task A_soft_picture_gives_nothing_to_say()
    {
        await using var press = await WithAsync((x, y) => (20_000 + (x * 50), 22_000 + (x * 45), 21_000 + (y * 60)));
        Assert.StartsWith("Nothing will go wrong", await LookAsync(press), StringComparison.Ordinal);
        await using var db = press.Store.Open();
        Assert.Empty(await db.Findings.ToListAsync(Cancel));
    }

    [Fact]
    public async Task A_proof_shows_the_print_its_hatching_and_the_picture_as_three_pictures()
    {
        await using var press = await WithAsync((x, _) => x < 150 ? (0, ushort.MaxValue, 0) : (30_000, 30_000, 30_000));
        var proof = new ProofPrint(press.Store, Files, new(Files));
        var shown = new List<byte[]>();
        foreach (var (hatch, asItCame) in ((bool, bool)[])[(false, false), (true, false), (false, true)])
        {
            var made = await proof.RunAsync(new(PressRoom.Order, 1, null, null, PaperWhite: true, hatch, asItCame), Cancel);
            Assert.True(made.Granted, made.Refusal?.Message);
            Assert.Equal((Width, Height), (made.Value.Width, made.Value.Height));
            shown.Add(made.Value.File);
        }

        Assert.Equal(3, shown.Select(Convert.ToHexString).Distinct().Count());
    }

    [Fact]
    public async Task A_proof_of_a_paper_without_a_trusted_profile_is_refused()
    {
        await using var press = await WithAsync((_, _) => (30_000, 30_000, 30_000));
        var refused = await new ProofPrint(press.Store, Files, new(Files)).RunAsync(new(PressRoom.Order, 1, new("another"), null, true, false, false), Cancel);
        Assert.IsType<ProofPrint.NothingToProofWith>(refused.Refusal);
    }

    private Task<string> LookAsync(PressRoom press) =>
        new LookAtPicture(press.Store, Files, new(Files)).DoNowAsync($"Picture of print {PressRoom.Order}/1", Cancel);

    private async Task<PressRoom> WithAsync(Func<int, int, (int, int, int)> colour)
    {
        var picture = Files.NewPath(".tif");
        DrawnTiff.Write(picture, Width, Height, 3, 300, (y, row) =>
        {
            for (var x = 0; x < Width; x++)
            {
                var (r, g, b) = colour(x, y);
                (row[3 * x], row[(3 * x) + 1], row[(3 * x) + 2]) = ((ushort)r, (ushort)g, (ushort)b);
            }
        });
        var profile = Files.NewPath(".icc");
        await File.WriteAllBytesAsync(profile, IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), IccVersion.V4), Cancel);
        var (image, icc) = (await Files.KeepMadeAsync(picture, Cancel), await Files.KeepMadeAsync(profile, Cancel));
        var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        await press.ChangeAsync(async db =>
        {
            await db.PrintLines.ExecuteUpdateAsync(l => l.SetProperty(x => x.ImageHash, image.Hash), Cancel);
            await db.Profiles.ExecuteUpdateAsync(p => p.SetProperty(x => x.FileHash, icc.Hash), Cancel);
        });
        return press;
    }
}
