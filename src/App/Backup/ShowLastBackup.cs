using Goodsheet.App.Files;

namespace Goodsheet.App.Backup;

/// <summary>When the room was last backed up; null if it never was.</summary>
public sealed class ShowLastBackup(FileShelf files)
{
    public LastBackup? Run() => LastBackup.Read(files);
}
