using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Backup;

/// <summary>Makes a room of a backup: in a folder of its own beside, which gets its name when all of it is there and right.</summary>
public sealed class RestoreRoom(TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var target = Path.TrimEndingDirectorySeparator(Path.GetFullPath(request.Folder));
        if (File.Exists(target) || (Directory.Exists(target) && Directory.EnumerateFileSystemEntries(target).Any()))
        {
            return new NotEmpty(target);
        }

        if (!File.Exists(request.Archive))
        {
            return new NoSuchFile(request.Archive);
        }

        var opened = Archive.Open(request.Archive);
        if (!opened.Granted)
        {
            return opened.Refusal;
        }

        using var archive = opened.Value;
        var parent = Path.GetDirectoryName(target) ?? target;
        Directory.CreateDirectory(parent);
        if (new DriveInfo(parent).AvailableFreeSpace < archive.Bytes + FileShelf.LeastFree)
        {
            return new NoSpace(parent, archive.Bytes);
        }

        var coming = $"{target}.{Guid.CreateVersion7(clock.GetUtcNow()):N}.coming";
        try
        {
            var refusal = await ExtractAsync(archive, coming, request.Progress, cancel) ?? await CheckAsync(Path.Combine(coming, ArchiveManifest.Records), cancel);
            if (refusal is not null)
            {
                return refusal;
            }

            if (Directory.Exists(target))
            {
                Directory.Delete(target); // empty, or it stays and we say so
            }

            Directory.Move(coming, target);
            return new Done(target, archive.Manifest.Entries.Count - 1, archive.Manifest.Made);
        }
        catch (Exception e) when (DiskFull.IsCauseOf(e))
        {
            return new NoSpace(parent, archive.Bytes);
        }
        catch (Exception e) when (Archive.IsBroken(e))
        {
            return new NotABackup("it breaks off or does not unpack");
        }
        finally
        {
            if (Directory.Exists(coming))
            {
                Directory.Delete(coming, recursive: true);
            }
        }
    }

    private static async Task<Refusal?> ExtractAsync(Archive archive, string coming, IProgress<double>? progress, CancellationToken cancel)
    {
        var (done, total) = (0L, Math.Max(1, archive.Bytes));
        Directory.CreateDirectory(Path.Combine(coming, "files"));
        foreach (var entry in archive.Manifest.Entries)
        {
            var to = Path.Combine(coming, entry.Name.Replace('/', Path.DirectorySeparatorChar)); // a name that was looked at
            if (!await archive.ExtractAsync(entry, to, cancel))
            {
                return new NotABackup($"“{entry.Name}” is not what was backed up");
            }

            done += entry.Length;
            progress?.Report((double)done / total);
        }

        return null;
    }

    // The hash says that it is what was written, not that it was ever right, nor that this version can read it.
    private static async Task<Refusal?> CheckAsync(string records, CancellationToken cancel)
    {
        try
        {
            var connection = new SqliteConnectionStringBuilder { DataSource = records, Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ConnectionString;
            await using var sqlite = new SqliteConnection(connection);
            await sqlite.OpenAsync(cancel);
            await using var command = sqlite.CreateCommand();
            command.CommandText = "PRAGMA integrity_check(1)";
            if (await command.ExecuteScalarAsync(cancel) is not "ok")
            {
                return new NotABackup("its records are damaged");
            }

            await using var known = RoomStore.InFile(records).Open();
            command.CommandText = "SELECT \"MigrationId\" FROM \"__EFMigrationsHistory\"";
            await using var applied = await command.ExecuteReaderAsync(cancel);
            var ours = known.Database.GetMigrations().ToHashSet(StringComparer.Ordinal);
            while (await applied.ReadAsync(cancel))
            {
                if (!ours.Contains(applied.GetString(0)))
                {
                    return new MadeByALaterVersion();
                }
            }

            return null;
        }
        catch (SqliteException)
        {
            return new NotABackup("its records cannot be read");
        }
    }

    /// <param name="Archive">The backup.</param>
    /// <param name="Folder">Where the room is to be; nothing may be there yet.</param>
    /// <param name="Progress">From 0 to 1.</param>
    public sealed record Request(string Archive, string Folder, IProgress<double>? Progress = null);

    /// <param name="Folder">Where the room is.</param>
    /// <param name="Files">Kept files in it.</param>
    /// <param name="Made">When the backup was made.</param>
    public sealed record Done(string Folder, int Files, DateTimeOffset Made);

    public sealed record NotEmpty(string Folder) : Refusal($"{Folder} is not empty. A backup is restored to a folder of its own, so that nothing is lost.");

    public sealed record NoSuchFile(string File) : Refusal($"There is no file {File}.");

    public sealed record NoSpace(string Folder, long Bytes) : Refusal(
        $"The disk of {Folder} has no space for the {Bytes / 1_000_000} MB of this room. Nothing was written.");
}
