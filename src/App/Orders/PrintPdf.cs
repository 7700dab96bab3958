using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Orders;

/// <summary>The prepared file of a print as a PDF with the profile as its output intent, written while it is sent.</summary>
public sealed class PrintPdf(RoomStore room, FileShelf files, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var line = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == request.Order && l.Line == request.Line, cancel);
        if (line is null)
        {
            return new ProofPrint.NoSuchPrint(request.Order, request.Line);
        }

        var profile = RecipeText.ProfileOf(line) is { } number ? await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == number, cancel) : null;
        if (line.PreparedHash is not { } hash || !files.Has(hash) || profile is null || !files.Has(profile.FileHash))
        {
            return new NotPrepared();
        }

        var with = await PrintFiles.WithAsync(db, profile, cancel);
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == line.Paper, cancel);
        var recipe = PrintFiles.Recipe(line, paper, with.Condition.Ppi, with.Printer.EightBits);
        var bytes = await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel);
        var title = new PdfTitle(line.Title, $"{with.Printer.Name}, {paper.Name}, {with.Condition.MediaSetting}, profile {profile.Number}", clock.GetUtcNow());
        return new Done($"order-{line.Order}-{line.Line}.pdf", [PdfFile.Page(files.PathOf(hash), recipe, line.Edge is EdgeKind.Bleed)], bytes, title);
    }

    public sealed record Request(int Order, int Line);

    /// <param name="FileName">What it is kept under.</param>
    /// <param name="Pages">Its pages.</param>
    /// <param name="Profile">Of the printing condition.</param>
    /// <param name="Title">What it says of itself.</param>
    public sealed record Done(string FileName, IReadOnlyList<PdfPage> Pages, byte[] Profile, PdfTitle Title)
    {
        /// <summary>Writes it from front to back.</summary>
        /// <exception cref="IOException">A prepared file is damaged, or the line broke: what was sent is no whole file.</exception>
        public void WriteTo(Stream to, CancellationToken cancel)
        {
            if (PdfPrint.Write(to, Pages, Profile, Title, cancel).Fault is { } fault)
            {
                throw new IOException(fault.Message);
            }
        }
    }

    public sealed record NotPrepared() : Refusal("The file of this print is not prepared. Prepare it first; then it can be taken as PDF, too.");
}
