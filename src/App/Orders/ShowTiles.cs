using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Printing;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>How a print would be parted into tiles, before any is made, and the tiles that are made.</summary>
public sealed class ShowTiles(RoomStore room, FileShelf files, TimeProvider clock)
{
    /// <summary>None when there is no such print.</summary>
    /// <param name="format">Of the paper; the widest there is of it when none is said.</param>
    /// <param name="overlap">The least that two tiles share.</param>
    public async Task<Page?> RunAsync(int order, int line, FormatCode? format, Length overlap, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var print = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == order && l.Line == line, cancel);
        if (print is null)
        {
            return null;
        }

        var now = await PrintNow.LoadAsync(db, order, line, cancel);
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == print.Paper, cancel);
        var formats = await db.Formats.AsNoTracking().Where(f => db.Items.Any(i => i.Paper == print.Paper && i.Format == f.Code)).ToListAsync(cancel);
        formats = [.. formats.OrderByDescending(f => f.IsRoll).ThenByDescending(f => f.Width)];
        var widest = now?.With.Printer.Width ?? Length.FromMillimetres(2_000);
        var chosen = formats.Find(f => f.Code == format) ?? formats.Find(f => f.Width <= widest) ?? formats.FirstOrDefault();
        var sets = await db.TileSets.AsNoTracking().Where(s => s.Order == order && s.Line == line).OrderByDescending(s => s.Number).ToListAsync(cancel);
        var margin = MakeTiles.Margin(now?.With.Printer.Margin ?? Length.Zero);
        return new(
            print, paper, now?.With.Profile.Number, formats, chosen, overlap,
            chosen is null ? new NoFormat(paper.Name)
                : now is not null && chosen.Width > widest ? new TooWide(chosen.Code, now.With.Printer.Name, widest)
                : Tiling.Of(print.Width, print.Height, chosen.Width, chosen.IsRoll ? null : chosen.Height, margin, overlap),
            sets);
    }

    /// <summary>The file of one tile; none when it is not kept any more.</summary>
    public async Task<string?> FileAsync(int order, int line, int set, int tile, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var made = await db.TileSets.AsNoTracking().SingleOrDefaultAsync(s => s.Order == order && s.Line == line && s.Number == set, cancel);
        return made?.Files.ElementAtOrDefault(tile - 1) is { } hash && files.Has(hash) ? files.PathOf(hash) : null;
    }

    /// <summary>All tiles as pages of one PDF.</summary>
    public async Task<Outcome<PrintPdf.Done>> PdfAsync(int order, int line, int set, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var made = await db.TileSets.AsNoTracking().SingleOrDefaultAsync(s => s.Order == order && s.Line == line && s.Number == set, cancel);
        var print = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == order && l.Line == line, cancel);
        var profile = made is null ? null : await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == made.Profile, cancel);
        if (made is null || print is null || profile is null || !files.Has(profile.FileHash) || !made.Files.All(files.Has))
        {
            return new PrintPdf.NotPrepared();
        }

        var with = await PrintFiles.WithAsync(db, profile, cancel);
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == with.Condition.Paper, cancel);
        var tiled = Tiling.Of(print.Width, print.Height, made.PaperWidth, made.PaperLength, MakeTiles.Margin(with.Printer.Margin), made.Overlap);
        var recipe = PrintFiles.Recipe(print, paper, with.Condition.Ppi, with.Printer.EightBits);
        if (!tiled.Granted || tiled.Value.Tiles.Count != made.Files.Count || RecipeText.Of(profile.Number, recipe) != made.Recipe)
        {
            return new ChangedSince();
        }

        return new PrintPdf.Done(
            $"order-{order}-{line}-tiles.pdf", TileFiles.Pages(tiled.Value, recipe, t => files.PathOf(made.Files[t.Number - 1])),
            await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel),
            new($"{print.Title}, {made.Files.Count} tiles", $"{with.Printer.Name}, {paper.Name}, {with.Condition.MediaSetting}, profile {profile.Number}", clock.GetUtcNow()));
    }

    /// <param name="Profile">What they would be made with; none without a trusted profile.</param>
    /// <param name="Formats">That the room has of this paper.</param>
    /// <param name="Format">The one chosen.</param>
    /// <param name="Tiling">How it would be parted, or why not.</param>
    /// <param name="Sets">What is made, the latest first.</param>
    public sealed record Page(
        PrintLine Print, Paper Paper, int? Profile, IReadOnlyList<Format> Formats, Format? Format, Length Overlap, Outcome<Tiling> Tiling, IReadOnlyList<TileSet> Sets);

    public sealed record NoFormat(string Paper) : Refusal($"The room has no format of {Paper}. Put some on the shelf first.");

    public sealed record TooWide(FormatCode Format, string Printer, Length Width) : Refusal($"{Format} is wider than the {Width.Millimetres:0.#} mm that {Printer} takes.");

    public sealed record ChangedSince() : Refusal("The print was changed since these tiles were made. Make them again.");
}
