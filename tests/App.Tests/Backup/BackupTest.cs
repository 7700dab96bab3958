using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Backup;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Tests.Backup;

public sealed class BackupTest : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-backup-");
    private readonly FakeTimeProvider clock = new(new(2030, 5, 6, 12, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static bool IsSlow => Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1";

    private string Target => Path.Combine(folder.FullName, "restored");

    public static TheoryData<string> Traps =>
    [
        "../room.db", "/etc/room", "files/../../room", "files\\ab\\c", "C:/room", "files/ab/..", "room.db ", "files/ab/" + new string('c', 64), "manifest.json/",
    ];

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task A_room_comes_back_as_it_was()
    {
        await using var room = await FurnishedAsync();
        var files = FilesOf(room);
        var archive = await BackUpAsync(room);
        Assert.NotNull(new ShowLastBackup(files).Run());
        var done = (await new RestoreRoom(clock).RunAsync(new(archive, Target), Cancel)).Value!;
        Assert.Equal((2, clock.GetUtcNow()), (done.Files, done.Made));

        var restored = RoomStore.InFile(Path.Combine(Target, "room.db"));
        await restored.MigrateAsync(Cancel); // as serve does
        await using var before = room.Store.Open();
        await using var after = restored.Open();
        Assert.Equal(await before.Moves.OrderBy(m => m.Lot).ThenBy(m => m.Number).ToListAsync(Cancel), await after.Moves.OrderBy(m => m.Lot).ThenBy(m => m.Number).ToListAsync(Cancel));
        var kept = new FileShelf(Path.Combine(Target, "files"));
        Assert.Equal(files.All(), kept.All());
        Assert.All(kept.All(), hash => Assert.Equal(hash, Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(kept.PathOf(hash))))));
        var ledger = await Assert.ThrowsAnyAsync<Exception>(() => after.Database.ExecuteSqlRawAsync("DELETE FROM move", Cancel)); // its guards came with it
        Assert.Contains("only added to", ledger.ToString(), StringComparison.Ordinal);
        SqliteConnection.ClearAllPools();
    }

    [Fact]
    public async Task A_backup_of_a_room_that_is_worked_in_is_whole_and_has_all_that_was_done_before()
    {
        await using var room = await FurnishedAsync();
        using var stop = new CancellationTokenSource();
        var acknowledged = 0;
        var work = Enumerable.Range(0, 2).Select(_ => Task.Run(async () =>
        {
            while (!stop.IsCancellationRequested)
            {
                await StockAsync(room);
                Interlocked.Increment(ref acknowledged);
            }
        }, Cancel)).ToArray();
        for (var i = 0; i < 3; i++)
        {
            await Task.Delay(200, Cancel);
            var before = Volatile.Read(ref acknowledged);
            var archive = await BackUpAsync(room, $"{i}.goodsheet");
            var target = $"{Target}-{i}";
            Assert.True((await new RestoreRoom(clock).RunAsync(new(archive, target), Cancel)).Granted);
            await using var db = RoomStore.InFile(Path.Combine(target, "room.db")).Open();
            Assert.InRange(await db.Lots.CountAsync(Cancel), before, int.MaxValue);
            Assert.Equal(await db.Lots.CountAsync(Cancel), await db.Moves.CountAsync(Cancel)); // never a lot without its move
        }

        await stop.CancelAsync();
        await Task.WhenAll(work);
        SqliteConnection.ClearAllPools();
    }

    [Fact]
    public async Task A_backup_writes_over_nothing_and_a_restore_neither()
    {
        await using var room = await FurnishedAsync();
        var archive = await BackUpAsync(room);
        var bytes = await File.ReadAllBytesAsync(archive, Cancel);
        Assert.IsType<BackupRoom.AlreadyThere>((await Backup(room).RunAsync(new(archive), Cancel)).Refusal);
        Assert.Equal(bytes, await File.ReadAllBytesAsync(archive, Cancel));

        Directory.CreateDirectory(Target);
        await File.WriteAllTextAsync(Path.Combine(Target, "mine.txt"), "mine", Cancel);
        Assert.IsType<RestoreRoom.NotEmpty>((await new RestoreRoom(clock).RunAsync(new(archive, Target), Cancel)).Refusal);
        Assert.Equal(["mine.txt"], Directory.EnumerateFileSystemEntries(Target).Select(Path.GetFileName));
        Assert.IsType<BackupRoom.NoRoom>((await new BackupRoom(RoomStore.InFile(Path.Combine(folder.FullName, "none", "room.db")), new(folder.FullName), clock)
            .RunAsync(new(Path.Combine(folder.FullName, "b")), Cancel)).Refusal);
    }

    [Fact]
    public async Task A_kept_file_that_the_disk_has_changed_is_told_and_backed_up_as_it_is()
    {
        await using var room = await FurnishedAsync();
        var files = FilesOf(room);
        var hash = files.All().First();
        await File.WriteAllTextAsync(files.PathOf(hash), "changed by a tired disk", Cancel);
        var done = (await Backup(room).RunAsync(new(Path.Combine(folder.FullName, "b")), Cancel)).Value!;
        Assert.Equal([hash], done.Damaged);
        Assert.True((await new RestoreRoom(clock).RunAsync(new(done.File, Target), Cancel)).Granted);
    }

    [Theory]
    [MemberData(nameof(Traps))]
    public async Task A_name_that_leads_out_of_the_room_is_refused(string name)
    {
        var all = await UnpackedAsync();
        all[name] = [1, 2, 3];
        await RefusedAsync(Pack(all));
    }

    [Fact]
    public async Task What_the_manifest_does_not_say_is_refused()
    {
        var all = await UnpackedAsync();
        var file = all.Keys.First(k => k.StartsWith("files/", StringComparison.Ordinal));
        await RefusedAsync(Pack(all, manifest: m => m.Replace("\"version\":1", "\"version\":2", StringComparison.Ordinal)), typeof(MadeByALaterVersion));
        await RefusedAsync(Pack(all, manifest: m => m.Replace("goodsheet-room-backup", "another", StringComparison.Ordinal)));
        await RefusedAsync(Pack(all, manifest: m => m.Replace(file, "files/../" + file[6..], StringComparison.Ordinal)));
        await RefusedAsync(Pack(all, manifest: _ => "[1]"));
        await RefusedAsync(Pack(all, manifest: _ => "{}"));
        await RefusedAsync(Pack(all, manifest: _ => null));
        await RefusedAsync(Pack(all, after: zip => Write(zip, "files/ab/more", [1])));
        await RefusedAsync(Pack(all, after: zip => Write(zip, file, [1])));
        await RefusedAsync(Pack(all, after: zip => zip.CreateEntry("files/")));
        await RefusedAsync(Pack(all, after: null, without: file));
        await RefusedAsync(Pack(all, manifest: m => m.Replace(Hash(all[file]), new('0', 64), StringComparison.Ordinal)));
        await RefusedAsync([]);
        await RefusedAsync(Encoding.UTF8.GetBytes("no archive at all"));
    }

    [Fact]
    public async Task What_unpacks_to_hundreds_of_times_itself_is_refused_before_it_is_unpacked()
    {
        var all = await UnpackedAsync();
        all["room.db"] = new byte[64 << 20];
        await RefusedAsync(Pack(all));
    }

    [Fact]
    public async Task Records_of_a_newer_version_and_damaged_records_are_refused()
    {
        var all = await UnpackedAsync();
        var records = Path.Combine(folder.FullName, "newer.db");
        await File.WriteAllBytesAsync(records, all["room.db"], Cancel);
        await using (var connection = new SqliteConnection($"Data Source={records};Pooling=false"))
        {
            await connection.OpenAsync(Cancel);
            await using var command = connection.CreateCommand();
            command.CommandText = "INSERT INTO \"__EFMigrationsHistory\" VALUES ('29990101000000_Later', '99')";
            await command.ExecuteNonQueryAsync(Cancel);
        }

        await RefusedAsync(Pack(new(all) { ["room.db"] = await File.ReadAllBytesAsync(records, Cancel) }), typeof(MadeByALaterVersion));
        var damaged = (byte[])all["room.db"].Clone();
        Array.Fill(damaged, (byte)0xA5, damaged.Length / 2, 3 * 4096);
        await RefusedAsync(Pack(new(all) { ["room.db"] = damaged }));
        await RefusedAsync(Pack(new(all) { ["room.db"] = Encoding.UTF8.GetBytes("these are no records") }));
    }

    [Fact]
    public async Task A_damaged_backup_is_refused_or_restored_as_it_was_and_leaves_nothing_half_written()
    {
        await using var room = await FurnishedAsync();
        var good = await File.ReadAllBytesAsync(await BackUpAsync(room), Cancel);
        var (all, random) = (await UnpackedAsync(good), new Random(20300506));
        var mutants = IsSlow ? 100_000 : 200;
        for (var i = 0; i < mutants; i++)
        {
            var bad = Mutate(good, random);
            var outcome = await TryAsync(bad);
            if (outcome.Granted)
            {
                Assert.All(all.Where(a => a.Key != "manifest.json"), a =>
                    Assert.True(a.Value.AsSpan().SequenceEqual(File.ReadAllBytes(Path.Combine(Target, a.Key))), $"mutant {i}: {a.Key}"));
                Directory.Delete(Target, recursive: true);
            }

            Assert.Equal(["mutant"], Left());
        }
    }

    private static byte[] Mutate(byte[] good, Random random)
    {
        var bad = (byte[])good.Clone();
        var at = random.Next(2) == 0 ? random.Next(bad.Length) : bad.Length - 1 - random.Next(Math.Min(bad.Length, 2000)); // its end says what is where
        switch (random.Next(4))
        {
            case 0:
                return bad[..at];
            case 1:
                bad[at] ^= (byte)(1 << random.Next(8));
                return bad;
            case 2:
                random.NextBytes(bad.AsSpan(at, Math.Min(8, bad.Length - at)));
                return bad;
            default:
                var length = Math.Min(random.Next(1, 400), bad.Length - at);
                return random.Next(2) == 0 ? [.. bad[..at], .. bad[(at + length)..]] : [.. bad[..at], .. bad[at..(at + length)], .. bad[at..]];
        }
    }

    private async Task RefusedAsync(byte[] archive, Type? why = null)
    {
        var outcome = await TryAsync(archive);
        Assert.Equal(why ?? typeof(NotABackup), outcome.Refusal?.GetType());
        Assert.DoesNotContain(Left(), left => left.StartsWith("restored", StringComparison.Ordinal));
    }

    private async Task<Outcome<RestoreRoom.Done>> TryAsync(byte[] archive)
    {
        var path = Path.Combine(folder.FullName, "mutant");
        await File.WriteAllBytesAsync(path, archive, Cancel);
        return await new RestoreRoom(clock).RunAsync(new(path, Target), Cancel);
    }

    // What stands beside the backup: the one under test, and nothing that begins like the room that was to be.
    private IEnumerable<string> Left() => Directory.EnumerateFileSystemEntries(folder.FullName).Select(f => Path.GetFileName(f)!)
        .Where(name => name == "mutant" || name.StartsWith("restored", StringComparison.Ordinal));

    private async Task<FreshRoom> FurnishedAsync()
    {
        var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        await StockAsync(room);
        await StockAsync(room);
        foreach (var text in (string[])["an invented picture", new string('x', 5000)])
        {
            await FilesOf(room).KeepAsync(new MemoryStream(Encoding.UTF8.GetBytes(text)), Cancel);
        }

        return room;
    }

    private async Task StockAsync(FreshRoom room) => Assert.True((await new PutAway(room.Store, clock).RunAsync(
        new(CommandId.New(), new("Mira"), FreshRoom.Cotton, FreshRoom.A2, 25, new(2031, 1, 1)), Cancel)).Granted);

    private static FileShelf FilesOf(FreshRoom room) => new(Path.Combine(room.Folder, "files"));

    private BackupRoom Backup(FreshRoom room) => new(room.Store, FilesOf(room), clock);

    private async Task<string> BackUpAsync(FreshRoom room, string name = "room.goodsheet") =>
        (await Backup(room).RunAsync(new(Path.Combine(folder.FullName, name)), Cancel)).Value!.File;

    private async Task<Dictionary<string, byte[]>> UnpackedAsync()
    {
        await using var room = await FurnishedAsync();
        return await UnpackedAsync(await File.ReadAllBytesAsync(await BackUpAsync(room), Cancel));
    }

    private static async Task<Dictionary<string, byte[]>> UnpackedAsync(byte[] archive)
    {
        using var zip = new ZipArchive(new MemoryStream(archive));
        var all = new Dictionary<string, byte[]>();
        foreach (var entry in zip.Entries)
        {
            using var content = new MemoryStream();
            await using var from = entry.Open();
            await from.CopyToAsync(content, Cancel);
            all[entry.FullName] = content.ToArray();
        }

        return all;
    }

    // An archive as backup writes it, of any entries, with a manifest that agrees unless it is changed.
    private static byte[] Pack(
        Dictionary<string, byte[]> all, Func<string, string?>? manifest = null, Action<ZipArchive>? after = null, string? without = null)
    {
        var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            var entries = all.Where(a => a.Key != "manifest.json").ToList();
            var said = string.Join(',', entries.Select(e => string.Create(CultureInfo.InvariantCulture,
                $$"""{"name":{{System.Text.Json.JsonSerializer.Serialize(e.Key)}},"length":{{e.Value.Length}},"sha256":"{{Hash(e.Value)}}"}""")));
            var text = $$"""{"format":"goodsheet-room-backup","version":1,"made":"2030-05-06T12:00:00+00:00","entries":[{{said}}]}""";
            entries.Where(e => e.Key != without).ToList().ForEach(e => Write(zip, e.Key, e.Value));
            after?.Invoke(zip);
            if ((manifest is null ? text : manifest(text)) is { } written)
            {
                Write(zip, "manifest.json", Encoding.UTF8.GetBytes(written));
            }
        }

        return file.ToArray();
    }

    private static void Write(ZipArchive zip, string name, byte[] content)
    {
        using var to = zip.CreateEntry(name).Open();
        to.Write(content);
    }

    private static string Hash(byte[] content) => Convert.ToHexStringLower(SHA256.HashData(content));
}
