using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>The test strips of a print, and the places that are worth one.</summary>
public sealed class ShowTestStrips(RoomStore room, FileShelf files, ScreenCopies copies)
{
    /// <summary>None when there is no such print.</summary>
    /// <param name="width">Of the strip that is looked for.</param>
    /// <param name="height">Of the strip.</param>
    public async Task<Page?> RunAsync(int order, int line, Length width, Length height, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var print = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == order && l.Line == line, cancel);
        if (print is null)
        {
            return null;
        }

        var now = await PrintNow.LoadAsync(db, order, line, cancel);
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == print.Paper, cancel);
        var lots = await ShelfLines.Left(db).Where(l => l.Paper == print.Paper && l.OnShelf > 0).ToListAsync(cancel);
        var strips = await db.TestStrips.AsNoTracking().Where(s => s.Order == order && s.Line == line).OrderByDescending(s => s.Number).ToListAsync(cancel);
        var places = now is null ? new Nothing() : await PlacesAsync(now, width, height, cancel);
        return new(print, paper, now?.With.Profile.Number, strips, lots, places.Value?.Places ?? [], places.Refusal);
    }

    /// <summary>Where the file of a strip is; none when it is not kept any more.</summary>
    public async Task<string?> FileAsync(int order, int line, int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var hash = await db.TestStrips.Where(s => s.Order == order && s.Line == line && s.Number == number).Select(s => s.FileHash).SingleOrDefaultAsync(cancel);
        return hash is not null && files.Has(hash) ? files.PathOf(hash) : null;
    }

    private async Task<Outcome<Found>> PlacesAsync(PrintNow now, Length width, Length height, CancellationToken cancel)
    {
        var print = now.Line;
        var copy = await copies.OfAsync(print.ImageHash, cancel);
        if (!copy.Granted || !files.Has(now.With.Profile.FileHash))
        {
            return copy.Refusal ?? new Nothing();
        }

        var printer = IccProfile.Read(await File.ReadAllBytesAsync(files.PathOf(now.With.Profile.FileHash), cancel)).Profile!;
        var part = (Math.Min(1, width.Millimetres / print.Width.Millimetres), Math.Min(1, height.Millimetres / print.Height.Millimetres));
        var found = await Task.Run(() => TestPlaces.Find(copy.Value, printer, print.BlackPointCompensation, print.Width.Millimetres / print.Height.Millimetres, part), cancel);
        return found.Value is { } places
            ? new Found([.. places.Select(p => new Place((PlaceKind)(int)p.Of, At(p.X, print.Width), At(p.Y, print.Height), p.Share))])
            : new CannotBeLookedAt(found.Fault!.Message);
    }

    private static Length At(double share, Length whole) => Length.NearestToMillimetres(Math.Floor(share * whole.Millimetres * 10) / 10);

    /// <param name="Print">The print.</param>
    /// <param name="Paper">Its paper.</param>
    /// <param name="Profile">What it would be made with; none without a trusted profile.</param>
    /// <param name="Strips">The latest first.</param>
    /// <param name="Lots">Of its paper, that something is left of.</param>
    /// <param name="Places">Proposed, what has most of everything first.</param>
    /// <param name="NoPlaces">Why nothing is proposed.</param>
    public sealed record Page(
        PrintLine Print, Paper Paper, int? Profile, IReadOnlyList<TestStrip> Strips, IReadOnlyList<ShelfLines.Line> Lots, IReadOnlyList<Place> Places, Refusal? NoPlaces);

    /// <param name="Kind">What it has most of.</param>
    /// <param name="X">From the picture's left edge.</param>
    /// <param name="Y">From its upper edge.</param>
    /// <param name="Share">How much of it, 0 to 1.</param>
    public sealed record Place(PlaceKind Kind, Length X, Length Y, double Share);

    private sealed record Found(IReadOnlyList<Place> Places);

    public sealed record Nothing() : Refusal("Without a trusted profile of its paper no place can be proposed.");

    public sealed record CannotBeLookedAt(string Why) : Refusal(Why);
}
