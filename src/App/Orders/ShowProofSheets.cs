using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Orders;

/// <summary>The sheets of small proofs of a print.</summary>
public sealed class ShowProofSheets(RoomStore room, FileShelf files, TimeProvider clock)
{
    private const int LongSide = 1_200; // pixels, of the drawing on the page

    /// <summary>None when there is no such print.</summary>
    public async Task<Page?> RunAsync(int order, int line, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var print = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == order && l.Line == line, cancel);
        if (print is null)
        {
            return null;
        }

        var now = await PrintNow.LoadAsync(db, order, line, cancel);
        var formats = await db.Formats.AsNoTracking().Where(f => db.Items.Any(i => i.Paper == print.Paper && i.Format == f.Code)).ToListAsync(cancel);
        return new(
            print, await db.Papers.AsNoTracking().SingleAsync(p => p.Code == print.Paper, cancel), now?.With.Profile.Number,
            [.. formats.Where(f => now is null || f.Width <= now.With.Printer.Width).OrderBy(f => f.IsRoll).ThenBy(f => f.Width)],
            await db.ProofSheets.AsNoTracking().Where(s => s.Order == order && s.Line == line).OrderByDescending(s => s.Number).ToListAsync(cancel));
    }

    /// <summary>Where the file of a sheet is; none when it is not kept any more.</summary>
    public async Task<string?> FileAsync(int order, int line, int number, CancellationToken cancel = default) =>
        await SheetAsync(order, line, number, cancel) is { } sheet ? files.PathOf(sheet.FileHash) : null;

    /// <summary>The sheet as it will look on its paper, for the page.</summary>
    public async Task<byte[]?> PictureAsync(int order, int line, int number, CancellationToken cancel = default) =>
        await SheetAsync(order, line, number, cancel) is { } sheet ? await Task.Run(() => Thumbnail.Jpeg(files.PathOf(sheet.FileHash), LongSide), cancel) : null;

    public async Task<Outcome<PrintPdf.Done>> PdfAsync(int order, int line, int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        if (await SheetAsync(order, line, number, cancel) is not { } sheet
            || await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == sheet.Profile, cancel) is not { } profile || !files.Has(profile.FileHash))
        {
            return new PrintPdf.NotPrepared();
        }

        var with = await PrintFiles.WithAsync(db, profile, cancel);
        return new PrintPdf.Done(
            $"order-{order}-{line}-proofs-{number}.pdf", [new(files.PathOf(sheet.FileHash), with.Condition.Ppi)],
            await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel), new($"Proofs of order {order}: {sheet.What}", $"{with.Printer.Name}, {with.Condition.Paper}, profile {profile.Number}", clock.GetUtcNow()));
    }

    private async Task<ProofSheet?> SheetAsync(int order, int line, int number, CancellationToken cancel)
    {
        await using var db = room.Open();
        var sheet = await db.ProofSheets.AsNoTracking().SingleOrDefaultAsync(s => s.Order == order && s.Line == line && s.Number == number, cancel);
        return sheet is not null && files.Has(sheet.FileHash) ? sheet : null;
    }

    /// <param name="Profile">What they would be made with; none without a trusted profile.</param>
    /// <param name="Formats">That the room has of this paper and its printer takes.</param>
    /// <param name="Sheets">What is made, the latest first.</param>
    public sealed record Page(PrintLine Print, Paper Paper, int? Profile, IReadOnlyList<Format> Formats, IReadOnlyList<ProofSheet> Sheets);
}
