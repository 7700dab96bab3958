using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Tests.Orders;

/// <summary>What a client got is made again years later to the same look: all that made it is kept by its content.</summary>
public sealed class RemakeTest : IDisposable
{
    private const int Newer = 8;

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-remake-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private FileShelf Files => new(Path.Combine(folder, "files"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Years_later_it_is_byte_for_byte_the_same_file_though_a_newer_profile_came_between()
    {
        await using var press = await MadeAsync();
        var again = await ComplainAsync(press);
        Assert.Contains("profile 7", await PrepareAsync(press, again), StringComparison.Ordinal);
        await using var db = press.Store.Open();
        var files = await db.PrintLines.OrderBy(l => l.Order).Select(l => l.PreparedHash).ToListAsync(Cancel);
        Assert.Equal(2, files.Count);
        Assert.Equal(files[0], files[1]);
    }

    [Fact]
    public async Task When_that_profile_tells_no_more_how_the_printer_prints_the_newest_one_serves()
    {
        await using var press = await MadeAsync();
        await press.ChangeAsync(async db => (await db.Profiles.SingleAsync(p => p.Number == PressRoom.Profile, Cancel)).Standing = Standing.Retired);
        var again = await ComplainAsync(press);
        Assert.Contains($"profile {Newer}", await PrepareAsync(press, again), StringComparison.Ordinal);
    }

    // A print made with profile 7; then a newer profile, another printer's, is trusted.
    private async Task<PressRoom> MadeAsync()
    {
        var press = await PressRoom.OpenAsync(("Low Water", 30, 20, 1));
        var image = await Files.KeepMadeAsync(Pictures.Good(folder, "low water.tif"), Cancel);
        var (first, second) = (await KeepAsync(ColourSpace.Rgb), await KeepAsync(ColourSpace.Cmyk));
        await press.ChangeAsync(async db =>
        {
            await db.PrintLines.ExecuteUpdateAsync(l => l.SetProperty(x => x.ImageHash, image.Hash).SetProperty(x => x.PreparedHash, (string?)null), Cancel);
            await db.Profiles.ExecuteUpdateAsync(p => p.SetProperty(x => x.FileHash, first), Cancel);
        });
        await PrepareAsync(press, PressRoom.Order);
        press.Clock.Advance(TimeSpan.FromDays(3 * 365));
        await press.ChangeAsync(db =>
        {
            db.Profiles.Add(new()
            {
                Number = Newer,
                Condition = PressRoom.Condition,
                Version = 3,
                Name = "Test Cotton on Heron, newer",
                FileHash = second,
                MadeAt = press.Clock.GetUtcNow(),
                By = PressRoom.Mira,
                Standing = Standing.Trusted,
            });
            return Task.CompletedTask;
        });
        return press;
    }

    private async Task<string> KeepAsync(ColourSpace space)
    {
        var path = Files.NewPath(".icc");
        await File.WriteAllBytesAsync(path, IccProfileWriter.Write(InventedPrinters.Profile(space), IccVersion.V4), Cancel);
        return (await Files.KeepMadeAsync(path, Cancel)).Hash;
    }

    private async Task<int> ComplainAsync(PressRoom press) => (await new NoteComplaint(press.Store, Files, press.Clock).RunAsync(
        new(CommandId.New(), PressRoom.Mira, PressRoom.Order, 1, "faded in a window", WhoPays.Client, CameBack: false, 1, press.Clock.GetUtcNow().AddDays(3)), Cancel)).Value!.Remake!.Value;

    private Task<string> PrepareAsync(PressRoom press, int order) =>
        new PreparePrint(press.Store, Files, press.Clock).DoNowAsync($"print {order}/1", Cancel);
}
