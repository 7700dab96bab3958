using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Profiles;

/// <summary>Finds the printing condition of a paper on a printer under a media setting, or begins it with its first fingerprint.</summary>
internal static class Conditions
{
    public static PrintingCondition ConditionFor(this RoomDb db, Paper paper, Printer printer, string media, PersonName by, DateTimeOffset at)
    {
        List<PrintingCondition> known = [.. db.Conditions.Where(c => c.Printer == printer.Code && c.Paper == paper.Code)];
        known = [.. known.Union(db.Conditions.Local.Where(c => c.Printer == printer.Code && c.Paper == paper.Code))];
        if (known.Find(c => c.MediaSetting == media) is { } same)
        {
            return same;
        }

        var condition = new PrintingCondition
        {
            Code = new($"{printer.Code}-{paper.Code}{(known.Count == 0 ? "" : $"-{known.Count + 1}")}"),
            Printer = printer.Code,
            Paper = paper.Code,
            MediaSetting = media,
            Ppi = printer.Ppi,
            Black = paper.BlackFor(printer.Inks),
        };
        db.Conditions.Add(condition);
        db.Fingerprints.Add(new()
        {
            Condition = condition.Code,
            Number = 1,
            Firmware = printer.Firmware,
            Driver = printer.Driver,
            System = Environment.OSVersion.VersionString,
            Ink = "",
            At = at,
            By = by,
        });
        return condition;
    }
}
