using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Tests.Runs;
using Goodsheet.App.Work;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Imaging;

namespace Goodsheet.Cli.Tests;

/// <summary>A batch of prints is prepared though the process is killed again and again: every file is made, each once, and nothing half-made is left.</summary>
public sealed class KilledBatchTest
{
    private const int Seed = 20261126;

    private static readonly bool Slow = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1";
    private static readonly int Batch = Slow ? 50 : 6;
    private static readonly int Kills = Slow ? 10 : 2;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_file_is_made_after_the_kills_and_each_once()
    {
        await using var press = await PressRoom.OpenAsync([.. Enumerable.Range(1, Batch).Select(i => ($"Low Water {i}", 300 + i, 200, 1))]);
        var files = new FileShelf(Path.Combine(press.Folder, "files"));
        await FurnishAsync(press, files);
        var random = new Random(Seed);
        var asked = false;
        for (var kill = 0; kill < Kills; kill++)
        {
            await using var room = await RunningRoom.OpenAsync(press.Folder, keep: true);
            if (!asked)
            {
                await AskAsync(room);
                asked = true;
            }

            await DoneAsync(press.Store, kill * Batch / Kills);
            await AtWorkAsync(press.Store);
            await Task.Delay(random.Next(200), Cancel); // wherever in the work that is
            await room.KillAsync();
        }

        await using (await RunningRoom.OpenAsync(press.Folder, keep: true))
        {
            await DoneAsync(press.Store, Batch);
        }

        await using var db = press.Store.Open();
        var work = await db.Work.AsNoTracking().ToListAsync(Cancel);
        Assert.Equal(Batch, work.Count);
        Assert.All(work, w => Assert.Equal(WorkState.Done, w.State));
        Assert.Contains(work, w => w.Starts > 1); // at least one was killed midway, or the kills proved nothing
        var prepared = await db.PrintLines.Select(l => l.PreparedHash).ToListAsync(Cancel);
        Assert.Equal(Batch, prepared.Distinct().Count(h => h is not null && files.Has(h)));
        var kept = Directory.EnumerateFiles(Path.Combine(press.Folder, "files"), "*", SearchOption.AllDirectories).Select(f => Path.GetFileName(f)!);
        Assert.Equal(Batch + 2, kept.Count(f => !f.StartsWith(".coming-", StringComparison.Ordinal))); // the picture, the profile, and each print once
    }

    private static async Task FurnishAsync(PressRoom press, FileShelf files)
    {
        var (picture, profile) = (files.NewPath(".tif"), files.NewPath(".icc"));
        DrawnTiff.Write(picture, 1500, 1000, 3, 300, (y, row) =>
        {
            for (var x = 0; x < row.Length; x++)
            {
                row[x] = (ushort)(((x * 40) + (y * 30)) % ushort.MaxValue);
            }
        });
        await File.WriteAllBytesAsync(profile, IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), IccVersion.V4), Cancel);
        var (image, icc) = (await files.KeepMadeAsync(picture, Cancel), await files.KeepMadeAsync(profile, Cancel));
        await press.ChangeAsync(async db =>
        {
            await db.PrintLines.ExecuteUpdateAsync(l => l.SetProperty(x => x.ImageHash, image.Hash).SetProperty(x => x.PreparedHash, (string?)null), Cancel);
            await db.Profiles.ExecuteUpdateAsync(p => p.SetProperty(x => x.FileHash, icc.Hash), Cancel);
        });
    }

    private static async Task AskAsync(RunningRoom room)
    {
        using var http = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = room.Address };
        for (var line = 1; line <= Batch; line++)
        {
            using var answer = await http.PostAsync($"orders/{PressRoom.Order}/{line}/prepare", content: null, Cancel);
            Assert.Equal(System.Net.HttpStatusCode.Redirect, answer.StatusCode);
        }
    }

    // Until a file is being made: a kill between two files proves nothing.
    private static async Task AtWorkAsync(RoomStore store)
    {
        for (var i = 0; i < 6_000; i++)
        {
            await using var db = store.Open();
            if (await db.Work.AnyAsync(w => w.State == WorkState.Running, Cancel))
            {
                return;
            }

            await Task.Delay(5, Cancel);
        }

        throw new TimeoutException("No file was begun.");
    }

    // Until so many are done: the kills fall all along the batch.
    private static async Task DoneAsync(RoomStore store, int count)
    {
        for (var i = 0; i < 6_000; i++)
        {
            await using var db = store.Open();
            if (await db.Work.CountAsync(w => w.State == WorkState.Done, Cancel) >= count)
            {
                return;
            }

            Assert.Equal(0, await db.Work.CountAsync(w => w.State == WorkState.Failed, Cancel));
            await Task.Delay(50, Cancel);
        }

        throw new TimeoutException($"{count} files were not made in 5 minutes.");
    }
}
