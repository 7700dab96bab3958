using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Documents;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Tests.Documents;

public sealed class ClaimLetterTest : IDisposable
{
    private const string Asks = "please replace two sheets, or credit them";

    private static readonly SupplierCode Mill = new("mill");
    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-claim-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_letter_says_what_lot_it_was_with_the_photographs_and_neither_client_nor_picture()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        var (complaint, lot, run) = await ComplainedAsync(press);
        var letter = new ClaimLetter(press.Store, new(Path.Combine(folder, "files")), press.Clock);
        var made = (await letter.RunAsync(new(complaint, Mill, lot, 2, Asks), Cancel)).Value!;
        Assert.Equal(2, made.Pages);
        Assert.Empty(PdfReading.Outside(made.Pdf));
        var text = PdfReading.Text(made.Pdf);
        foreach (var said in (string[])["Claim", "An invented mill", "paper@example.org", "Test Cotton 300", "A2", "B-0815", "2 March 2026", "A crease along the feed.", "Please replace two sheets, or credit them.", "Photograph 2 of 2", $"lot {lot}", $"run {run}"])
        {
            Assert.Contains(said, text, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("Low Water", text, StringComparison.Ordinal);
        Assert.DoesNotContain("invented gallery", text, StringComparison.Ordinal);

        Assert.Equal(2, (await letter.RunAsync(new(complaint, Mill, null, 0, new('x', OrderLog.LongestText)), Cancel)).Value!.Pages); // without a lot, and with as much as may be asked for
        Assert.IsType<NoteClaim.WhichSupplier>((await letter.RunAsync(new(complaint, new("nobody"), lot, 2, Asks), Cancel)).Refusal);
        Assert.IsType<SayWhy>((await letter.RunAsync(new(complaint, Mill, lot, 2, " "), Cancel)).Refusal);
        Assert.IsType<NoSuchComplaint>((await letter.RunAsync(new(99, Mill, lot, 2, Asks), Cancel)).Refusal);
    }

    [Fact]
    public async Task A_claim_is_sent_once_and_the_complaint_settled_once()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        var (complaint, _, _) = await ComplainedAsync(press);
        var wish = new NoteClaim.Request(CommandId.New(), PressRoom.Mira, complaint, Mill, Asks);
        var note = new NoteClaim(press.Store, press.Clock);
        Assert.True((await note.RunAsync(wish, Cancel)).Granted);
        Assert.True((await note.RunAsync(wish, Cancel)).Granted);
        Assert.IsType<NoteClaim.WhichSupplier>((await note.RunAsync(wish with { Command = CommandId.New(), Supplier = new("nobody") }, Cancel)).Refusal);
        var settle = new SettleComplaint(press.Store, press.Clock);
        Assert.IsType<SayWhy>((await settle.RunAsync(new(PressRoom.Mira, complaint, " "), Cancel)).Refusal);
        Assert.True((await settle.RunAsync(new(PressRoom.Mira, complaint, "credited"), Cancel)).Granted);
        Assert.True((await settle.RunAsync(new(PressRoom.Mira, complaint, "credited"), Cancel)).Granted);
        Assert.IsType<SettleComplaint.WasSettled>((await settle.RunAsync(new(PressRoom.Mira, complaint, "refused"), Cancel)).Refusal);
        await using var db = press.Store.Open();
        Assert.Equal([FactKind.Complaint, FactKind.ClaimSent, FactKind.ComplaintSettled], await db.OrderFacts.OrderBy(f => f.Number).Select(f => f.Kind).ToListAsync(Cancel));
        Assert.Equal("credited", (await db.Complaints.SingleAsync(Cancel)).SettledHow);
    }

    private async Task<(int Complaint, Goodsheet.Room.Shelf.LotCode Lot, int Run)> ComplainedAsync(PressRoom press)
    {
        await press.ChangeAsync(db =>
        {
            db.Suppliers.Add(new() { Code = Mill, Name = "An invented mill", TimeZone = "Etc/UTC", Email = "paper@example.org" });
            return Task.CompletedTask;
        });
        var lot = (await new Goodsheet.App.Shelf.PutAway(press.Store, press.Clock).RunAsync(
            new(CommandId.New(), PressRoom.Mira, FreshRoom.Cotton, FreshRoom.A2, 5, new(2028, 1, 31), Place: "drawer 2", MakersNumber: "B-0815", Supplier: Mill), Cancel)).Value!.Lot;
        var run = await press.PlannedAsync(lot);
        Assert.True((await press.StartAsync(run)).Granted);
        Assert.True((await new RecordRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, run, []), Cancel)).Granted);
        var files = new FileShelf(Path.Combine(folder, "files"));
        var kept = await files.KeepMadeAsync(Pictures.Good(folder, "crease.tif"), Cancel);
        var done = (await new NoteComplaint(press.Store, files, press.Clock).RunAsync(
            new(CommandId.New(), PressRoom.Mira, PressRoom.Order, 1, "a crease along the feed", WhoPays.Supplier, CameBack: true, 0, default, [kept.Hash, kept.Hash]), Cancel)).Value!;
        return (done.Complaint, lot, run);
    }
}
