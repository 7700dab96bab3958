using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Orders;

public sealed class WatchedFolderTest : IDisposable
{
    private static readonly TimeSpan Quiet = TimeSpan.FromSeconds(11);

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-watch-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private string Watched => Directory.CreateDirectory(Path.Combine(folder, "in")).FullName;

    private FileShelf Files => new(Path.Combine(folder, "room", "files"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task What_is_still_written_is_left_until_it_is_quiet_then_it_is_an_order_on_hold_and_moved_aside()
    {
        await using var press = await OpenAsync();
        var take = new TakeFromFolder(press.Store, Files, press.Clock);
        var path = Pictures.Good(Watched, "low water.tif", 200, 300);
        var whole = await File.ReadAllBytesAsync(path, Cancel);
        await File.WriteAllBytesAsync(path, whole[..100], Cancel);
        Assert.Equal(1, (await take.RunAsync(Cancel)).Waiting);
        press.Clock.Advance(Quiet);
        await File.WriteAllBytesAsync(path, whole, Cancel); // it grew since
        Assert.Equal((0, 1), await PassAsync(take));
        press.Clock.Advance(Quiet);
        Assert.Equal((1, 0), await PassAsync(take));

        Assert.Equal(["low water.tif"], Names(TakeFromFolder.TakenFolder));
        Assert.Empty(Directory.EnumerateFiles(Watched));
        await using var db = press.Store.Open();
        var order = await db.Orders.SingleAsync(o => o.Number != PressRoom.Order, Cancel);
        var line = await db.PrintLines.SingleAsync(l => l.Order == order.Number, Cancel);
        Assert.Equal((OrderState.OnHold, Length.FromMillimetres(200), Length.FromMillimetres(300)), (order.State, line.Width, line.Height));
    }

    [Fact]
    public async Task A_kill_between_the_order_and_the_move_takes_nothing_twice_and_loses_nothing()
    {
        await using var press = await OpenAsync();
        var path = Pictures.Good(Watched, "a.tif");
        var (bytes, written) = (await File.ReadAllBytesAsync(path, Cancel), File.GetLastWriteTimeUtc(path));
        Assert.Equal((1, 0), await QuietPassAsync(press, new(press.Store, Files, press.Clock)));

        // As the folder is when the process died after the order was written and before the file was moved.
        File.Delete(Path.Combine(Watched, TakeFromFolder.TakenFolder, "a.tif"));
        await File.WriteAllBytesAsync(path, bytes, Cancel);
        File.SetLastWriteTimeUtc(path, written);
        Assert.Equal((1, 0), await QuietPassAsync(press, new(press.Store, Files, press.Clock)));
        Assert.Equal(["a.tif"], Names(TakeFromFolder.TakenFolder));
        await using var db = press.Store.Open();
        Assert.Equal(2, await db.Orders.CountAsync(Cancel)); // the press room's own, and one

        // The same name put there later is another picture.
        Pictures.Good(Watched, "a.tif", 320, 200);
        Assert.Equal((1, 0), await QuietPassAsync(press, new(press.Store, Files, press.Clock)));
        Assert.Equal(3, await db.Orders.CountAsync(Cancel));
        Assert.Equal(["a-2.tif", "a.tif"], Names(TakeFromFolder.TakenFolder));
    }

    [Fact]
    public async Task What_is_refused_is_moved_with_a_text_that_says_why_and_what_is_half_named_is_left()
    {
        await using var press = await OpenAsync();
        Pictures.CutShort(Watched, "short.tif");
        await File.WriteAllTextAsync(Path.Combine(Watched, "list.csv"), "no picture", Cancel);
        await File.WriteAllTextAsync(Path.Combine(Watched, "coming.tif.part"), "half", Cancel);
        File.CreateSymbolicLink(Path.Combine(Watched, "link.tif"), Pictures.Good(folder, "outside.tif"));
        var take = new TakeFromFolder(press.Store, Files, press.Clock);
        await take.RunAsync(Cancel);
        press.Clock.Advance(Quiet);
        Assert.Equal(3, (await take.RunAsync(Cancel)).Refused);

        Assert.Equal(["link.tif", "link.tif.why.txt", "list.csv", "list.csv.why.txt", "short.tif", "short.tif.why.txt"], Names(TakeFromFolder.RefusedFolder));
        Assert.Contains("cut short", await File.ReadAllTextAsync(Path.Combine(Watched, TakeFromFolder.RefusedFolder, "short.tif.why.txt"), Cancel), StringComparison.Ordinal);
        Assert.Equal(["coming.tif.part"], Directory.EnumerateFiles(Watched).Select(Path.GetFileName));
        Assert.True(File.Exists(Path.Combine(folder, "outside.tif")));
    }

    [Fact]
    public async Task A_folder_that_is_gone_is_said_and_tried_again()
    {
        await using var press = await OpenAsync();
        var take = new TakeFromFolder(press.Store, Files, press.Clock);
        Directory.Delete(Watched, recursive: true);
        await take.RunAsync(Cancel);
        Assert.NotNull(take.Trouble);
        Pictures.Good(Watched, "a.tif");
        Assert.Equal((1, 0), await QuietPassAsync(press, take));
        Assert.Null(take.Trouble);
    }

    [Fact]
    public async Task The_rooms_own_folder_is_not_watched()
    {
        await using var press = await OpenAsync();
        var set = new SetIntake(press.Store, Files);
        Directory.CreateDirectory(Path.Combine(folder, "room", "files"));
        foreach (var own in (string[])[Path.Combine(folder, "room"), Path.Combine(folder, "room", "files"), folder])
        {
            Assert.IsType<SetIntake.OwnFolder>((await SetAsync(set, own)).Refusal);
        }

        Assert.IsType<SetIntake.NoSuchFolder>((await SetAsync(set, "in")).Refusal);
        Assert.IsType<SetIntake.NoSuchFolder>((await SetAsync(set, Path.Combine(folder, "nowhere"))).Refusal);
    }

    private async Task<PressRoom> OpenAsync()
    {
        var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        var done = await SetAsync(new(press.Store, Files), Watched);
        Assert.True(done.Granted, done.Refusal?.Message);
        return press;
    }

    private static Task<Goodsheet.Room.Outcome<SetIntake.Done>> SetAsync(SetIntake set, string watched) =>
        set.RunAsync(new("", watched, 10, "An invented shop", FreshRoom.Cotton, Length.FromMillimetres(300), Length.FromMillimetres(10), 5), Cancel);

    private static async Task<(int Taken, int Waiting)> PassAsync(TakeFromFolder take) =>
        await take.RunAsync(Cancel) is var done ? (done.Taken, done.Waiting) : default;

    private static async Task<(int Taken, int Waiting)> QuietPassAsync(PressRoom press, TakeFromFolder take)
    {
        await take.RunAsync(Cancel);
        press.Clock.Advance(Quiet);
        return await PassAsync(take);
    }

    private IEnumerable<string?> Names(string aside) => Directory.EnumerateFiles(Path.Combine(Watched, aside)).Select(Path.GetFileName).Order(StringComparer.Ordinal);
}
