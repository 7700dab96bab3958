using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Printing;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Makes the files of a print's tiles, as long work. About: see <see cref="About"/>.</summary>
public sealed class MakeTiles(RoomStore room, FileShelf files, TimeProvider clock) : LongWork(room)
{
    /// <summary>"Tiles PAPERWIDTH PAPERLENGTH OVERLAP in mm, of print ORDER/LINE"; a roll has no length.</summary>
    public static string About(PrintLine print, Format format, Length overlap) => string.Create(
        CultureInfo.InvariantCulture, $"Tiles {format.Width.Millimetres} {(format.IsRoll ? 0 : format.Height.Millimetres)} {overlap.Millimetres} of print {print.Order}/{print.Line}");

    /// <summary>The margin of a tile: what its marks take, and at least what the printer does not reach.</summary>
    internal static Length Margin(Length printers) => Length.NearestToMillimetres(TileFiles.MarginMm + printers.Millimetres);

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var mm = about.Split(' ')[1..4].Select(n => Length.FromMillimetres(decimal.Parse(n, CultureInfo.InvariantCulture))).ToArray();
        var (order, line) = PrintNow.Of(about);
        await using var db = Room.Open();
        if (await PrintNow.LoadAsync(db, order, line, cancel) is not { } print)
        {
            return PrintNow.NoProfile;
        }

        Length? length = mm[1] > Length.Zero ? mm[1] : null;
        var tiled = Tiling.Of(print.Line.Width, print.Line.Height, mm[0], length, Margin(print.With.Printer.Margin), mm[2]);
        if (!tiled.Granted)
        {
            return tiled.Refusal.Message;
        }

        var (tiling, profile) = (tiled.Value, print.With.Profile);
        var outputs = tiling.Tiles.ToDictionary(t => t.Number, _ => files.NewPath(".tif"));
        var says = string.Create(CultureInfo.InvariantCulture, $"order {order} print {line} - {print.Line.Width.Millimetres:0.#} by {print.Line.Height.Millimetres:0.#} mm together - {print.Paper.Name} - profile {profile.Number} - {clock.Today():yyyy-MM-dd}");
        var made = TileFiles.Write(
            new(files.PathOf(print.Line.ImageHash), await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel), print.Recipe, tiling, says, t => outputs[t.Number]),
            new PrintFiles(Room, files, clock).Told(p => tell((int)(95 * p))), files.Disk, cancel);
        if (made.Fault is { } fault)
        {
            return fault.Message;
        }

        var hashes = new List<string>();
        foreach (var tile in tiling.Tiles)
        {
            hashes.Add((await files.KeepMadeAsync(outputs[tile.Number], cancel)).Hash);
        }

        db.TileSets.Add(new()
        {
            Order = order,
            Line = line,
            Number = (await db.TileSets.Where(s => s.Order == order && s.Line == line).MaxAsync(s => (int?)s.Number, cancel) ?? 0) + 1,
            PaperWidth = mm[0],
            PaperLength = length,
            Overlap = mm[2],
            Profile = profile.Number,
            Recipe = RecipeText.Of(profile.Number, print.Recipe),
            Files = hashes,
            At = clock.GetUtcNow(),
            By = AskedBy,
        });
        await db.SaveChangesAsync(cancel);
        return $"{tiling.Tiles.Count} tiles are made, each {tiling.Tiles[0].Width.Millimetres:0.#} × {tiling.Tiles[0].Height.Millimetres:0.#} mm. Print them at 100 %, one after the other on the same paper, and let them dry before they are trimmed.";
    }
}
