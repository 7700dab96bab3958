using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Where pictures and lists come from.</summary>
public sealed class ShowIntake(RoomStore room)
{
    public async Task<IntakeSettings> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.IntakeSettings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
    }
}

/// <summary>Names the folders that pictures come from.</summary>
public sealed class SetIntake(RoomStore room, FileShelf files)
{
    private const int MostQuietSeconds = 3_600;
    private const int MostDays = 365;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            foreach (var folder in (string[])[request.PictureFolder, request.WatchedFolder])
            {
                if (folder.Length > 0 && WrongFolder(folder) is { } wrong)
                {
                    return wrong;
                }
            }

            if (request.WatchedFolder.Length > 0)
            {
                if (OrderHead.Wrong(request.Client, "") is { } nobody)
                {
                    return nobody;
                }

                if (request.Paper is not { } paper || await db.Papers.FindAsync([paper], cancel) is null)
                {
                    return new PutAway.NoSuchPaper(request.Paper ?? new(""));
                }
            }

            if (request.QuietSeconds is < 1 or > MostQuietSeconds || request.PromisedDays is < 0 or > MostDays || request.LongSide <= Length.Zero || request.Border < Length.Zero)
            {
                return new CannotBe();
            }

            var stored = await db.IntakeSettings.SingleOrDefaultAsync(cancel);
            if (stored is null)
            {
                db.IntakeSettings.Add(stored = new());
            }

            (stored.PictureFolder, stored.WatchedFolder, stored.QuietSeconds, stored.PromisedDays) = (request.PictureFolder, request.WatchedFolder, request.QuietSeconds, request.PromisedDays);
            (stored.Client, stored.Paper, stored.LongSide, stored.Border) = (request.Client.Trim(), request.Paper, request.LongSide, request.Border);
            return new Done();
        }, cancel);

    private Refusal? WrongFolder(string folder)
    {
        if (!Path.IsPathFullyQualified(folder) || !Directory.Exists(folder))
        {
            return new NoSuchFolder(folder);
        }

        // Whoever may name the room's own folder could have its records and files taken for pictures.
        var full = Path.GetFullPath(folder).TrimEnd(Path.DirectorySeparatorChar) + Path.DirectorySeparatorChar;
        var own = Path.GetDirectoryName(Path.GetFullPath(files.Folder))! + Path.DirectorySeparatorChar;
        return own.StartsWith(full, StringComparison.Ordinal) || full.StartsWith(own, StringComparison.Ordinal) ? new OwnFolder(folder) : null;
    }

    public sealed record Request(
        string PictureFolder, string WatchedFolder, int QuietSeconds, string Client, PaperCode? Paper, Length LongSide, Length Border, int PromisedDays);

    public sealed record Done;

    public sealed record NoSuchFolder(string Folder) : Refusal($"There is no folder {Folder} on the room’s machine. Write it whole, from its beginning.");

    public sealed record OwnFolder(string Folder) : Refusal($"{Folder} holds the room’s own records, or lies among them. Take a folder of its own.");

    public sealed record CannotBe() : Refusal($"Quiet is 1 to {MostQuietSeconds} seconds, promised 0 to {MostDays} days, and a print is longer than nothing.");
}
