using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PdfSharp.Pdf;
using Goodsheet.App.Editions;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Editions;

namespace Goodsheet.App.Documents;

/// <summary>Makes the certificate of a numbered print, with its signed words and their signature in a code that anybody can verify.</summary>
public sealed class CertificateDocument(RoomStore room, FileShelf files)
{
    private const int ThumbnailPixels = 900;
    private const double PictureSide = 66, CodeSide = 62;

    public async Task<Outcome<Document>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        if (await db.NumberedPrints.AsNoTracking().SingleOrDefaultAsync(p => p.Code == request.Code, cancel) is not { } print)
        {
            return new NotInTheRegister(request.Code);
        }

        if (print.DestroyedAt is not null)
        {
            return new IsDestroyed(request.Code);
        }

        var edition = await db.Editions.AsNoTracking().SingleAsync(e => e.Number == print.Edition, cancel);
        var name = (await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel))?.Name ?? "";
        // The register names no file: the picture is the print of that title, of the same run where it is known.
        var hash = await db.PrintLines.AsNoTracking().Where(l => l.Title == edition.Title)
            .OrderByDescending(l => db.RunPrints.Any(r => r.Run == print.Run && r.Order == l.Order && r.Line == l.Line)).ThenByDescending(l => l.Order)
            .Select(l => l.ImageHash).FirstOrDefaultAsync(cancel);
        var picture = hash is not null && files.Has(hash) ? await Task.Run(() => Thumbnail.Jpeg(files.PathOf(hash), ThumbnailPixels), cancel) : null;
        return Draw(edition, print, name, picture);
    }

    private static Document Draw(Edition edition, NumberedPrint print, string room, byte[]? picture)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Certificate {print.Code}";
        using (var leaf = new Leaf(document, 210, 297))
        {
            const double left = 25, right = 185, width = right - left;
            leaf.Type("Certificate of authenticity", left, 25, Face.Text, 4.2);
            var y = 38.0;
            foreach (var line in leaf.Lines(edition.Title, width, Face.Title, 11, most: 2))
            {
                leaf.Type(line, left, y, Face.Title, 11);
                y += 13;
            }

            leaf.TypeFitted(string.Create(CultureInfo.CurrentCulture, $"by {edition.Artist}, {edition.Year}"), left, y + 2, width, Face.Text, 5, 3);
            y += 18;
            if (picture is not null)
            {
                leaf.Picture(picture, left, y, PictureSide, PictureSide);
            }

            var facts = picture is null ? left : left + PictureSide + 9;
            foreach (var (what, says) in Facts(edition, print, room))
            {
                leaf.Type(what, facts, y, Face.Text, 3);
                y += 4.6;
                foreach (var line in leaf.Lines(says, right - facts, Face.Strong, 4, most: 3))
                {
                    leaf.Type(line, facts, y, Face.Strong, 4);
                    y += 5;
                }

                y += 2.4;
            }

            y = Math.Max(y, 150) + 4;
            foreach (var line in leaf.Lines(
                "This print was made and approved as part of the edition named above. No further print with this number exists or will be made, unless this one is destroyed and its replacement says so.", width, Face.Text, 3.7))
            {
                leaf.Type(line, left, y, Face.Text, 3.7);
                y += 5;
            }

            const double signed = 203, foot = 216;
            leaf.Line(left, signed, left + 70, signed);
            leaf.Line(right - 70, signed, right, signed);
            leaf.Type("The artist", left, signed + 2, Face.Text, 3);
            leaf.Type("For the room", right - 70, signed + 2, Face.Text, 3);
            var code = QrCode.Of($"{CertificateText.Of(edition, print)}\n{VerifyCertificate.SignatureWord}{print.Signature}");
            leaf.Qr(code, left - 4, foot, CodeSide);
            y = foot + 6;
            foreach (var line in leaf.Lines(
                $"Register entry {print.Code}. The code holds the signed words of this certificate and their signature (ECDSA on P-256 with SHA-256). Read it with a phone and give what it says to the room, or to its page Verify a certificate: one letter changed, and it fails.",
                right - left - CodeSide, Face.Text, 3.2))
            {
                leaf.Type(line, left + CodeSide, y, Face.Text, 3.2);
                y += 4.4;
            }
        }

        return Document.Of(document, $"certificate-{print.Code}.pdf");
    }

    private static IEnumerable<(string What, string Says)> Facts(Edition edition, NumberedPrint print, string room)
    {
        static string Mm(Room.Units.Length width, Room.Units.Length height) => string.Create(CultureInfo.CurrentCulture, $"{width.Millimetres:0.#} × {height.Millimetres:0.#} mm");
        yield return ("Number", Numbering.Words(edition, print.Series, print.Number) + (print.Replacement > 0 ? ", in place of a destroyed print" : ""));
        yield return ("Edition", Numbering.Size(edition) + (edition.SizesTogether ? ", all sizes together" : ", in this size"));
        yield return ("Image, and sheet", $"{Mm(print.ImageWidth, print.ImageHeight)}, on {Mm(print.SheetWidth, print.SheetHeight)}");
        yield return ("Paper", print.PaperName);
        yield return ("Ink", print.Ink);
        yield return ("Printed", $"{print.PrintedOn.ToString("d MMMM yyyy", CultureInfo.CurrentCulture)}{(room.Length > 0 ? $", {room}" : "")}");
    }

    public sealed record Request(string Code);

    public sealed record IsDestroyed(string Code) : Refusal($"Print {Code} is recorded as destroyed: its certificate is void and is not made again.");
}
