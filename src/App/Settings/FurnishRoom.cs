using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Control;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Settings;

/// <summary>Gives a new room what every room has: the formats of the trade and its rules, all to be edited.</summary>
public static class FurnishRoom
{
    public static async Task FurnishAsync(this RoomStore room, CancellationToken cancel)
    {
        await using var db = room.Open();
        if (await db.Settings.AnyAsync(cancel))
        {
            return;
        }

        db.Settings.Add(TimeZoneInfo.Local.HasIanaId ? new() { TimeZone = TimeZoneInfo.Local.Id } : new());
        db.ClassRules.AddRange(TradeRules.New());
        db.Formats.AddRange(Formats());
        db.Tolerances.AddRange(Tolerance.New());
        await db.SaveChangesAsync(cancel);
    }

    private static IEnumerable<Format> Formats()
    {
        var order = 0;
        foreach (var (name, width, height) in ((string, decimal, decimal)[])
            [("A4", 210, 297), ("A3", 297, 420), ("A3+", 329, 483), ("A2", 420, 594)])
        {
            yield return new()
            {
                Code = new(name),
                IsRoll = false,
                Width = Length.FromMillimetres(width),
                Height = Length.FromMillimetres(height),
                Order = ++order,
            };
        }

        foreach (var (width, metres) in ((decimal, decimal)[])[(432, 15), (610, 15), (1118, 15)])
        {
            yield return new()
            {
                Code = new($"roll {width}"),
                IsRoll = true,
                Width = Length.FromMillimetres(width),
                Height = Length.FromMetres(metres),
                Order = ++order,
            };
        }
    }
}
