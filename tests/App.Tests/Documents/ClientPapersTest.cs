using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Documents;
using Goodsheet.App.Editions;
using Goodsheet.App.Files;
using Goodsheet.App.Tests.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Editions;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Documents;

public sealed class ClientPapersTest : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-papers-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_certificates_code_verifies_and_one_letter_changed_in_it_fails()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 380, 253, 1));
        var files = new FileShelf(Path.Combine(folder, "files"));
        var kept = await files.KeepMadeAsync(Pictures.Good(folder, "low water.tif"), Cancel);
        await press.ChangeAsync(db => db.PrintLines.ExecuteUpdateAsync(l => l.SetProperty(x => x.ImageHash, kept.Hash), Cancel));
        var code = await IssueAsync(press);

        var made = (await new CertificateDocument(press.Store, files).RunAsync(new(code), Cancel)).Value!;
        await KeepAsync("certificate", made);
        Assert.Equal(1, made.Pages);
        Assert.Empty(PdfReading.Outside(made.Pdf));
        var text = PdfReading.Text(made.Pdf);
        foreach (var said in (string[])["Low Water", "I. Tallowby, 2025", "1/25", "Edition of 25, and 2 artist’s proofs", "380 × 253 mm, on 420 × 297 mm", "Test Cotton 300", "Pigment, matte black", "2 March 2026", code])
        {
            Assert.Contains(said, text, StringComparison.Ordinal);
        }

        var read = PdfReading.Code(made.Pdf)!;
        var verify = new VerifyCertificate(press.Store);
        Assert.Equal(code, (await verify.RunAsync(new(read, ""), Cancel)).Value?.Print.Code);
        Assert.IsType<VerifyCertificate.Forged>((await verify.RunAsync(new(read.Replace("1/25", "2/25", StringComparison.Ordinal), ""), Cancel)).Refusal);
        Assert.IsType<VerifyCertificate.Forged>((await verify.RunAsync(new(read.Replace(" of", " oF", StringComparison.OrdinalIgnoreCase), ""), Cancel)).Refusal);
        Assert.IsType<VerifyCertificate.Forged>((await verify.RunAsync(new(read[..^8], ""), Cancel)).Refusal);

        await new DestroyPrint(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, code, "torn, before witnesses"), Cancel);
        Assert.IsType<CertificateDocument.IsDestroyed>((await new CertificateDocument(press.Store, files).RunAsync(new(code), Cancel)).Refusal);
        Assert.IsType<NotInTheRegister>((await new CertificateDocument(press.Store, files).RunAsync(new("0000"), Cancel)).Refusal);
    }

    [Fact]
    public async Task A_certificate_with_long_names_and_no_picture_keeps_to_its_page()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 380, 253, 1));
        var code = await IssueAsync(press, "The Long Low Water of the Estuary at Nether Aldern, Seen from the Second Bridge on a Morning without Wind");
        var made = (await new CertificateDocument(press.Store, new(Path.Combine(folder, "files"))).RunAsync(new(code), Cancel)).Value!;
        await KeepAsync("certificate-long", made);
        Assert.Empty(PdfReading.Outside(made.Pdf));
        Assert.Equal(code, (await new VerifyCertificate(press.Store).RunAsync(new(PdfReading.Code(made.Pdf)!, ""), Cancel)).Value?.Print.Code);
    }

    [Fact]
    public async Task A_delivery_note_counts_the_good_prints_and_a_quotation_is_printed_as_it_was_kept()
    {
        await using var press = await PressRoom.OpenAsync([.. Enumerable.Range(1, 60).Select(i => ($"Low Water {i}", 300, 200, 2))]);
        await press.ChangeAsync(db => db.PrintLines.ExecuteUpdateAsync(l => l.SetProperty(x => x.Good, 1), Cancel));
        var papers = new OrderPapers(press.Store, press.Clock);
        var note = (await papers.RunAsync(new(PressRoom.Order, OrderPapers.Kind.DeliveryNote), Cancel)).Value!;
        await KeepAsync("delivery-note", note);
        Assert.Equal(2, note.Pages);
        Assert.Empty(PdfReading.Outside(note.Pdf));
        Assert.Contains("Low Water 60, 300 × 200 mm on Test Cotton 300 1 of 2", PdfReading.Text(note.Pdf), StringComparison.Ordinal);
        Assert.Contains("Prints in this delivery 60", PdfReading.Text(note.Pdf), StringComparison.Ordinal);

        Assert.IsType<OrderPapers.NoQuotation>((await papers.RunAsync(new(PressRoom.Order, OrderPapers.Kind.Quotation), Cancel)).Refusal);
        await press.ChangeAsync(db =>
        {
            db.OrderQuotes.Add(new()
            {
                Order = PressRoom.Order,
                Number = 1,
                At = press.Clock.GetUtcNow(),
                By = PressRoom.Mira,
                Currency = "thaler",
                Cost = 10,
                Net = 34,
                Tax = 0,
                Text = "Quotation for order 2211\nThe print room, 2 March 2026\nFor An invented gallery\n\n2 × Low Water, 300 × 200 mm on Test Cotton 300, 17.00 each: 34.00 thaler\n\nNet 34.00 thaler\nTo pay 34.00 thaler\n",
            });
            return Task.CompletedTask;
        });
        var quote = (await papers.RunAsync(new(PressRoom.Order, OrderPapers.Kind.Quotation), Cancel)).Value!;
        await KeepAsync("quotation", quote);
        Assert.Contains("17.00 each 34.00 thaler", PdfReading.Text(quote.Pdf), StringComparison.Ordinal);
        Assert.Empty(PdfReading.Outside(quote.Pdf));
    }

    private static async Task<string> IssueAsync(PressRoom press, string title = "Low Water")
    {
        var edition = (await new OpenEdition(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, title, "I. Tallowby", 2025, 25, 2, 0, 0, true), Cancel)).Value!.Edition;
        static Length Mm(decimal mm) => Length.FromMillimetres(mm);
        return (await new IssuePrint(press.Store, press.Clock).RunAsync(new(
            CommandId.New(), PressRoom.Mira, edition, Series.Numbered, null, Mm(380), Mm(253), Mm(420), Mm(297), FreshRoom.Cotton, "Pigment, matte black", new(2026, 3, 2), null), Cancel)).Value!.Code;
    }

    // To be looked at, when asked for.
    private static async Task KeepAsync(string name, Document document)
    {
        if (Environment.GetEnvironmentVariable("GOODSHEET_SCREENSHOTS") is { Length: > 0 } shots)
        {
            await File.WriteAllBytesAsync(Path.Combine(shots, $"{name}.pdf"), document.Pdf, Cancel);
        }
    }
}
