using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Backup;

namespace Goodsheet.Cli.Backup;

/// <summary><c>backup</c> and <c>restore</c>: the whole room in one file, and back.</summary>
public static class BackupVerbs
{
    private static readonly Option<FileInfo> Out = new("--out") { Description = "The file to write; it must not be there yet.", Required = true };

    private static readonly Argument<FileInfo> Archive = new("backup") { Description = "The file that goodsheet backup wrote." };

    public static Command Backup()
    {
        var command = new Command("backup", "Writes the whole room into one file, also while it is open.")
        {
            RoomOption.Room, RoomOption.Postgres, Out, Answer.Json,
        };
        command.SetAction(async (line, cancel) =>
        {
            var (store, files) = line.NameRoom();
            return await line.GiveAsync(
                await new BackupRoom(store, files, TimeProvider.System).RunAsync(new(line.GetRequiredValue(Out).FullName, line.Progress()), cancel),
                done => new { file = done.File, files = done.Files, bytes = done.Bytes, damaged = done.Damaged },
                done => string.Create(CultureInfo.InvariantCulture, $"{done.File}: the records and {done.Files} files, {done.Bytes / 1e6:0.0} MB.")
                    + (done.Damaged.Count == 0 ? "" : $" {done.Damaged.Count} kept files are no longer what they were; an older backup may have them right: {string.Join(", ", done.Damaged.Take(10))}."));
        });
        return command;
    }

    public static Command Restore()
    {
        var command = new Command("restore", "Makes a room of a backup, in a folder where nothing is yet.")
        {
            Archive, RoomOption.Room, Answer.Json,
        };
        command.SetAction(async (line, cancel) => await line.GiveAsync(
            await new RestoreRoom(TimeProvider.System).RunAsync(new(line.GetRequiredValue(Archive).FullName, line.GetRequiredValue(RoomOption.Room).FullName, line.Progress()), cancel),
            done => new { room = done.Folder, files = done.Files, made = done.Made },
            done => $"The room of {done.Made.ToLocalTime().ToString("d MMMM yyyy HH:mm", CultureInfo.InvariantCulture)} is in {done.Folder}, with {done.Files} files."));
        return command;
    }
}
