using System.IO.Compression;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Backup;

/// <summary>Writes the whole room into one file, also while it is open and worked in.</summary>
/// <remarks>
/// The records are copied first, as they were at one instant, then the files: a file is kept before a record names
/// it, so every file that a record of the copy names is there. The room itself is not brought to a newer form.
/// </remarks>
public sealed class BackupRoom(RoomStore room, FileShelf files, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (room.KeptIn is not RoomStore.Kind.Sqlite)
        {
            return new KeptOnAServer(files.Folder);
        }

        var source = new SqliteConnectionStringBuilder(room.Connection).DataSource;
        if (!File.Exists(source))
        {
            return new NoRoom(Path.GetDirectoryName(Path.GetFullPath(source))!);
        }

        var target = Path.GetFullPath(request.Out);
        if (File.Exists(target) || Directory.Exists(target))
        {
            return new AlreadyThere(target);
        }

        var kept = files.All().ToList();
        var total = new FileInfo(source).Length + kept.Sum(hash => LengthOf(hash));
        var folder = Path.GetDirectoryName(target)!;
        Directory.CreateDirectory(folder);
        if (new DriveInfo(folder).AvailableFreeSpace < total + new FileInfo(source).Length + FileShelf.LeastFree)
        {
            return new NoSpace(folder, total);
        }

        var (copy, coming) = (target + $".{Guid.CreateVersion7():N}.records", target + $".{Guid.CreateVersion7():N}.coming");
        try
        {
            await CopyRecordsAsync(copy, cancel);
            var done = await WriteAsync(coming, copy, kept, total, request.Progress, cancel);
            File.Move(coming, target);
            await LastBackup.WriteAsync(files, new(clock.GetUtcNow(), done.Bytes), cancel);
            return done with { File = target };
        }
        catch (Exception e) when (DiskFull.IsCauseOf(e))
        {
            return new NoSpace(folder, total);
        }
        finally
        {
            File.Delete(copy);
            File.Delete(coming);
        }
    }

    // As at one instant, compact, and with no journal beside it.
    private async Task CopyRecordsAsync(string to, CancellationToken cancel)
    {
        await using var connection = new SqliteConnection(new SqliteConnectionStringBuilder(room.Connection) { Pooling = false }.ConnectionString);
        await connection.OpenAsync(cancel);
        await using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA busy_timeout = 10000; VACUUM INTO $to";
        command.Parameters.AddWithValue("$to", to);
        await command.ExecuteNonQueryAsync(cancel);
    }

    private async Task<Done> WriteAsync(
        string coming, string records, List<string> kept, long total, IProgress<double>? progress, CancellationToken cancel)
    {
        var entries = new List<ArchiveManifest.Entry>();
        var damaged = new List<string>();
        var now = clock.GetUtcNow();
        await using var file = new FileStream(coming, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1 << 16, useAsync: false);
        using (var archive = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            entries.Add(await AddAsync(archive, ArchiveManifest.Records, records, CompressionLevel.Fastest, now, cancel));
            var bytes = entries[0].Length;
            foreach (var hash in kept)
            {
                if (files.Has(hash)) // what can be made again may be thrown away meanwhile
                {
                    var entry = await AddAsync(archive, ArchiveManifest.NameOf(hash), files.PathOf(hash), CompressionLevel.NoCompression, now, cancel);
                    if (entry.Sha256 != hash)
                    {
                        damaged.Add(hash);
                    }

                    entries.Add(entry);
                    bytes += entry.Length;
                    progress?.Report(total == 0 ? 1 : Math.Min(1, (double)bytes / total));
                }
            }

            await using var manifest = archive.CreateEntry(ArchiveManifest.Name, CompressionLevel.Fastest).Open();
            await manifest.WriteAsync(new ArchiveManifest(ArchiveManifest.ThisFormat, ArchiveManifest.ThisVersion, now, entries).Write(), cancel);
        }

        file.Flush(flushToDisk: true);
        return new("", entries.Count - 1, file.Length, damaged);
    }

    private static async Task<ArchiveManifest.Entry> AddAsync(
        ZipArchive archive, string name, string path, CompressionLevel level, DateTimeOffset now, CancellationToken cancel)
    {
        var entry = archive.CreateEntry(name, level);
        entry.LastWriteTime = now;
        await using var from = File.OpenRead(path);
        await using var to = entry.Open();
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var buffer = new byte[1 << 17];
        long length = 0;
        while (await from.ReadAsync(buffer, cancel) is var read && read > 0)
        {
            hash.AppendData(buffer, 0, read);
            await to.WriteAsync(buffer.AsMemory(0, read), cancel);
            length += read;
        }

        return new(name, length, Convert.ToHexStringLower(hash.GetHashAndReset()));
    }

    private long LengthOf(string hash) => new FileInfo(files.PathOf(hash)) is { Exists: true } file ? file.Length : 0;

    /// <param name="Out">The file to write; it must not be there yet.</param>
    /// <param name="Progress">From 0 to 1.</param>
    public sealed record Request(string Out, IProgress<double>? Progress = null);

    /// <param name="File">Where it is.</param>
    /// <param name="Files">Kept files in it.</param>
    /// <param name="Bytes">How long it is.</param>
    /// <param name="Damaged">Kept files that are no longer what they were: in the backup as they are.</param>
    public sealed record Done(string File, int Files, long Bytes, IReadOnlyList<string> Damaged);

    public sealed record NoRoom(string Folder) : Refusal($"There is no room in {Folder}. Say which with --room.");

    public sealed record AlreadyThere(string File) : Refusal($"{File} is there already. Name a file that is not: a backup never writes over another.");

    public sealed record NoSpace(string Folder, long Bytes) : Refusal(
        $"The disk of {Folder} has no space for this backup of about {Bytes / 1_000_000} MB. Nothing was written.");

    public sealed record KeptOnAServer(string Folder) : Refusal(
        $"The records of this room are on a PostgreSQL server. Back them up by its own means (pg_dump), and the folder {Folder} with them.");
}
