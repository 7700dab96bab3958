using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Control;

/// <summary>Writes down that something changed which should stay as it was: a new fingerprint of a printing condition.</summary>
public sealed class NoteChange(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var now = request.Now.Trim();
            var before = await db.Fingerprints.Where(f => f.Condition == request.Condition).OrderByDescending(f => f.Number).FirstOrDefaultAsync(cancel);
            if (before is null || now.Length is 0 or > 100)
            {
                return before is null ? new NoSuchCondition(request.Condition) : new SayWhat();
            }

            var what = request.What;
            var ink = before.InkLoad;
            if (what is Part.InkLoad && (!int.TryParse(now, out ink) || ink is < -Most or > Most))
            {
                return new NotPerCent(now);
            }

            var after = before with
            {
                Number = before.Number + 1,
                Firmware = what is Part.Firmware ? now : before.Firmware,
                Driver = what is Part.Driver ? now : before.Driver,
                System = what is Part.System ? now : before.System,
                Ink = what is Part.Ink ? now : before.Ink,
                PaperLot = what is Part.PaperLot ? now : before.PaperLot,
                PlatenGap = what is Part.PlatenGap ? now : before.PlatenGap,
                InkLoad = ink,
                At = clock.GetUtcNow(),
                By = request.By,
                Changed = $"{Words(what)}: {now}{(what is Part.InkLoad ? " %" : "")}",
            };
            if (!after.IsAs(before))
            {
                db.Fingerprints.Add(after);
            }

            return new Done(after.IsAs(before) ? before.Number : after.Number);
        }, cancel);

    /// <summary>The farthest an ink load goes either way, in per cent.</summary>
    internal const int Most = 100;

    public static string Words(Part what) => what switch
    {
        Part.Ink => "New ink",
        Part.PaperLot => "New lot",
        Part.Driver => "Driver update",
        Part.Firmware => "Printer firmware update",
        Part.PlatenGap => "Platen gap",
        Part.InkLoad => "Ink load, more or less in %",
        _ => "Computer system update",
    };

    public enum Part
    {
        Ink = 1,
        PaperLot = 2,
        Driver = 3,
        Firmware = 4,
        System = 5,
        PlatenGap = 6,
        InkLoad = 7,
    }

    public sealed record Request(PersonName By, ConditionCode Condition, Part What, string Now);

    public sealed record Done(int Fingerprint);

    public sealed record NoSuchCondition(ConditionCode Condition) : Refusal($"The room has no printing condition {Condition}.");

    public sealed record NotPerCent(string Now) : Refusal($"“{Now}” is not a whole number of per cent between −{Most} and {Most}. Nothing was written down.");

    public sealed record SayWhat() : Refusal("Say in a few words what it is now: the cartridge's number, the lot, the version.");
}
