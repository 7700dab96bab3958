using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Editions;

namespace Goodsheet.App.Editions;

/// <summary>The register: all editions, one with its prints, a certificate, and the register as a file for a gallery.</summary>
public sealed class ShowEditions(RoomStore room)
{
    public async Task<IReadOnlyList<Line>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.Editions.AsNoTracking().OrderByDescending(e => e.Number)
            .Select(e => new Line(e, db.NumberedPrints.Count(p => p.Edition == e.Number && p.Series == Series.Numbered && p.Replacement == 0))).ToListAsync(cancel);
    }

    public async Task<Page?> OneAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.Editions.AsNoTracking().SingleOrDefaultAsync(e => e.Number == number, cancel) is { } edition
            ? new(edition, await PrintsAsync(db, number, cancel)) : null;
    }

    public async Task<Certificate?> CertificateAsync(string code, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var print = await db.NumberedPrints.AsNoTracking().SingleOrDefaultAsync(p => p.Code == code, cancel);
        if (print is null)
        {
            return null;
        }

        var edition = await db.Editions.AsNoTracking().SingleAsync(e => e.Number == print.Edition, cancel);
        return new(edition, print, CertificateText.Of(edition, print), (await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel))?.Name ?? "");
    }

    /// <summary>Every print of an edition, with those destroyed, as CSV (RFC 4180).</summary>
    public async Task<string?> CsvAsync(int number, CancellationToken cancel = default)
    {
        if (await OneAsync(number, cancel) is not { } page)
        {
            return null;
        }

        var csv = new StringBuilder("number,series,title,artist,year,image_mm,sheet_mm,paper,ink,printed,register,destroyed,why\r\n");
        foreach (var p in page.Prints)
        {
            csv.AppendJoin(',', ((string[])
            [
                Numbering.Words(page.Edition, p.Series, p.Number), Numbering.Name(p.Series) + (p.Replacement > 0 ? $", replacement {p.Replacement}" : ""),
                page.Edition.Title, page.Edition.Artist, $"{page.Edition.Year}", $"{p.ImageWidth} × {p.ImageHeight}", $"{p.SheetWidth} × {p.SheetHeight}", p.PaperName, p.Ink,
                p.PrintedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), p.Code, p.DestroyedAt?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "", p.DestroyedWhy,
            ]).Select(Quoted)).Append("\r\n");
        }

        return csv.ToString();
    }

    // A cell that begins like a formula is not to be run by whoever opens the file.
    internal static string Quoted(string cell) => $"\"{(cell.Length > 0 && "=+-@".Contains(cell[0], StringComparison.Ordinal) ? "'" : "")}{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static async Task<IReadOnlyList<NumberedPrint>> PrintsAsync(RoomDb db, int edition, CancellationToken cancel) =>
        await db.NumberedPrints.AsNoTracking().Where(p => p.Edition == edition)
            .OrderBy(p => p.Counted).ThenBy(p => p.Series).ThenBy(p => p.Number).ThenBy(p => p.Replacement).ToListAsync(cancel);

    public sealed record Line(Edition Edition, int Issued);

    public sealed record Page(Edition Edition, IReadOnlyList<NumberedPrint> Prints);

    public sealed record Certificate(Edition Edition, NumberedPrint Print, string Words, string Room);
}
