using System.Text.Json;
using Goodsheet.App.Files;

namespace Goodsheet.App.Backup;

/// <summary>When the room was last backed up, and how long the backup is.</summary>
/// <remarks>A file beside the records and not among them: a backup is made before records are brought to a newer form, too.</remarks>
public sealed record LastBackup(DateTimeOffset At, long Bytes)
{
    internal static Task WriteAsync(FileShelf files, LastBackup last, CancellationToken cancel) =>
        File.WriteAllTextAsync(PathFor(files), JsonSerializer.Serialize(last), cancel);

    internal static LastBackup? Read(FileShelf files)
    {
        try
        {
            return JsonSerializer.Deserialize<LastBackup>(File.ReadAllText(PathFor(files)));
        }
        catch (Exception e) when (e is IOException or JsonException)
        {
            return null; // never, or half written: as if never
        }
    }

    private static string PathFor(FileShelf files) => Path.Combine(Path.GetDirectoryName(Path.GetFullPath(files.Folder))!, "last-backup.json");
}
