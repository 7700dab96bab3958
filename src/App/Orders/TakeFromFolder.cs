using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Goes once through the watched folder: what is whole becomes an order on hold and is moved aside, what cannot is moved to the refused with why.</summary>
/// <remarks>
/// The order is written before the file is moved, under a command made of the file's name, time and content: after a
/// kill between the two the file is met again, known, and only moved. Nothing is lost and nothing is taken twice.
/// </remarks>
public sealed class TakeFromFolder(RoomStore room, FileShelf files, TimeProvider clock)
{
    public const string TakenFolder = "taken";
    public const string RefusedFolder = "refused";

    private static readonly string[] Unfinished = [".part", ".tmp", ".crdownload", ".partial", ".coming"];

    private readonly Dictionary<string, Seen> seen = new(StringComparer.Ordinal);

    /// <summary>What stands in the way of the folder now; null when nothing does.</summary>
    public string? Trouble { get; private set; }

    public async Task<Done> RunAsync(CancellationToken cancel = default)
    {
        IntakeSettings? settings;
        await using (var db = room.Open())
        {
            settings = await db.IntakeSettings.AsNoTracking().SingleOrDefaultAsync(cancel);
        }

        if (settings is not { WatchedFolder: { Length: > 0 } folder, Paper: not null })
        {
            (Trouble, var none) = (null, new Done(0, 0, 0, []));
            return none;
        }

        try
        {
            var done = await PassAsync(new(folder), settings, cancel);
            Trouble = null;
            return done;
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            Trouble = e.Message; // gone, full or closed to us: tried again at the next pass
            return new(0, 0, 0, []);
        }
    }

    private async Task<Done> PassAsync(DirectoryInfo folder, IntakeSettings settings, CancellationToken cancel)
    {
        var (taken, refused, waiting, looks) = (0, 0, 0, new List<Guid>());
        var present = folder.EnumerateFiles().Where(f => f.Name[0] is not ('.' or '~') && !Unfinished.Contains(f.Extension, StringComparer.OrdinalIgnoreCase)).OrderBy(f => f.Name, StringComparer.Ordinal).ToList();
        foreach (var gone in seen.Keys.Except(present.Select(f => f.Name)).ToList())
        {
            seen.Remove(gone);
        }

        foreach (var file in present)
        {
            var now = Stat(file);
            if (!seen.TryGetValue(file.Name, out var before) || before.Is != now)
            {
                seen[file.Name] = before = new(now, clock.GetTimestamp());
            }

            if (clock.GetElapsedTime(before.Since).TotalSeconds < settings.QuietSeconds)
            {
                waiting++;
                continue;
            }

            var (picture, why) = file.LinkTarget is not null
                ? (null, "It is a link to somewhere else.")
                : await PictureFolder.LookAsync(file, file.Name, keep: true, files, cancel);
            file.Refresh();
            if (!file.Exists || Stat(file) != now)
            {
                waiting++; // it changed under our eyes: it was not whole
                continue;
            }

            why = picture is null ? why : await EnterAsync(file, now, picture, settings, looks, cancel);
            MoveAside(folder, file, why);
            seen.Remove(file.Name);
            (taken, refused) = why is null ? (taken + 1, refused) : (taken, refused + 1);
        }

        return new(taken, refused, waiting, looks);
    }

    private async Task<string?> EnterAsync(FileInfo file, Stand stand, PictureFolder.Taken picture, IntakeSettings settings, List<Guid> looks, CancellationToken cancel)
    {
        var command = new CommandId(new Guid(SHA256.HashData(Encoding.UTF8.GetBytes(
            string.Create(CultureInfo.InvariantCulture, $"watched folder\n{file.Name}\n{stand.Changed.Ticks}\n{picture.Hash}"))).AsSpan(0, 16)));
        var print = Wish(file.Name, picture, settings);
        if (print.Wrong() is { } wrong)
        {
            return wrong.Message;
        }

        var outcome = await room.ChangeAsync<Entered>(async db =>
        {
            var now = clock.GetUtcNow();
            var before = await db.GrantedBeforeAsync(new Wish(command, PersonName.TheRoom, now), print.ToString(), cancel);
            if (!before.Granted || before.Value)
            {
                return new Entered(null); // it was taken before a kill, and is only to be moved
            }

            if (await PaperFacts.OfAsync(db, print.Paper, clock.Today(), cancel) is not { } facts)
            {
                return new PutAway.NoSuchPaper(print.Paper);
            }

            var order = await OrderEntry.AddOrderAsync(db, new(settings.Client, "", now.AddDays(settings.PromisedDays), ApprovalOf.Nothing, PersonName.TheRoom), now, cancel);
            (order.State, order.StateWhy) = (OrderState.OnHold, "it came by the watched folder: look at size and paper");
            OrderEntry.AddFindings(db, OrderEntry.AddLine(db, order, 1, print, picture.Image, command), picture.Image, facts);
            db.OrderFacts.Add(new() { Order = order.Number, Number = 1, Kind = FactKind.PutOnHold, At = now, By = PersonName.TheRoom, Text = order.StateWhy });
            var look = WorkDesk.Wish<LookAtPicture>($"Picture of print {order.Number}/1", PersonName.TheRoom, now);
            db.Work.Add(look);
            return new Entered(look.Id);
        }, cancel);
        if (outcome.Value?.Look is { } id)
        {
            looks.Add(id);
        }

        return outcome.Refusal?.Message;
    }

    private static PrintWish Wish(string name, PictureFolder.Taken picture, IntakeSettings settings)
    {
        var (wide, high) = (picture.Image.Width, picture.Image.Height);
        var longSide = settings.LongSide.Micrometres;
        var shortSide = Length.FromMicrometres((long)Math.Round((double)longSide * Math.Min(wide, high) / Math.Max(wide, high)));
        return new(
            picture.Hash, name, "", wide >= high ? settings.LongSide : shortSide, wide >= high ? shortSide : settings.LongSide, settings.Border,
            EdgeKind.White, Length.Zero, settings.Paper!.Value, 1, Length.FromMillimetres(500));
    }

    // The text comes first: a refused file without one would leave somebody guessing.
    private static void MoveAside(DirectoryInfo folder, FileInfo file, string? why)
    {
        var to = folder.CreateSubdirectory(why is null ? TakenFolder : RefusedFolder).FullName;
        var target = Path.Combine(to, file.Name);
        for (var n = 2; Path.Exists(target); n++)
        {
            target = Path.Combine(to, $"{Path.GetFileNameWithoutExtension(file.Name)}-{n}{file.Extension}");
        }

        if (why is not null)
        {
            File.WriteAllText($"{target}.why.txt", $"{file.Name} was refused.{Environment.NewLine}{why}{Environment.NewLine}Mend it and put it into the folder again.{Environment.NewLine}");
        }

        File.Move(file.FullName, target);
    }

    private static Stand Stat(FileInfo file) => new(file.Length, file.LastWriteTimeUtc);

    private sealed record Entered(Guid? Look);

    private readonly record struct Stand(long Length, DateTime Changed);

    private sealed record Seen(Stand Is, long Since);

    /// <param name="Waiting">Files that are not quiet yet.</param>
    /// <param name="Looks">The work of looking at the new pictures, to be handed over.</param>
    public sealed record Done(int Taken, int Refused, int Waiting, IReadOnlyList<Guid> Looks);
}
