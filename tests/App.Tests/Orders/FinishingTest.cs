using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Tests.Orders;

public sealed class FinishingTest : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-finishing-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task An_order_goes_out_when_every_print_is_good_and_every_step_ticked()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        await press.ChangeAsync(async db => (await db.Papers.SingleAsync(Cancel)).DryingHours = 24);
        Assert.True((await new PlanFinishing(press.Store).RunAsync(new(PressRoom.Order, HandOut.Sent, PackedAs.Tube, Coat: true), Cancel)).Granted);
        Assert.True((await new PlanFinishing(press.Store).RunAsync(new(PressRoom.Order, HandOut.Sent, PackedAs.Flat, Coat: true), Cancel)).Granted);
        var page = (await new ShowFinishing(press.Store).RunAsync(PressRoom.Order, Cancel))!;
        Assert.Equal([FinishKind.DryDown, FinishKind.Coat, FinishKind.Trim, FinishKind.Interleave, FinishKind.Pack], page.Steps.Select(s => s.Kind));
        Assert.Contains("24 hours", page.Steps[0].Text, StringComparison.Ordinal);
        Assert.Contains("Flat", page.Steps[4].Text, StringComparison.Ordinal);

        Assert.IsType<HandOutOrder.NotPrinted>((await OutAsync(press)).Refusal);
        await press.ChangeAsync(async db =>
        {
            (await db.PrintLines.SingleAsync(Cancel)).Good = 2;
            (await db.Orders.SingleAsync(Cancel)).State = OrderState.Done;
        });
        Assert.IsType<HandOutOrder.StepsAreOpen>((await OutAsync(press)).Refusal);
        foreach (var step in page.Steps)
        {
            Assert.True((await new TickFinishing(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, PressRoom.Order, step.Number), Cancel)).Granted);
        }

        Assert.IsType<PlanFinishing.HasBegun>((await new PlanFinishing(press.Store).RunAsync(new(PressRoom.Order, HandOut.Sent, PackedAs.Tube, false), Cancel)).Refusal);
        Assert.True((await OutAsync(press)).Granted);
        await using var db = press.Store.Open();
        Assert.Equal((FactKind.Sent, "carrier 17"), await db.OrderFacts.Select(f => new ValueTuple<FactKind, string>(f.Kind, f.Text)).SingleAsync(Cancel));
    }

    [Fact]
    public async Task Prints_dry_from_the_end_of_their_run_and_whoever_goes_on_sooner_says_why()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        await press.ChangeAsync(async db => (await db.Papers.SingleAsync(Cancel)).DryingHours = 4);
        await new PlanFinishing(press.Store).RunAsync(new(PressRoom.Order, HandOut.Sent, PackedAs.Flat, Coat: false), Cancel);
        Assert.IsType<DryDown.NotMade>((await TickAsync(press, 1, "in a hurry")).Refusal);

        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await press.StartAsync(run)).Granted);
        press.Clock.Advance(TimeSpan.FromMinutes(20));
        Assert.True((await RecordAsync(press, run)).Granted);
        press.Clock.Advance(TimeSpan.FromHours(4) - TimeSpan.FromSeconds(1));
        Assert.Equal(press.Clock.GetUtcNow().AddSeconds(1), Assert.IsType<DryDown.Drying>((await TickAsync(press, 1)).Refusal).At);
        Assert.IsType<DryDown.ComesFirst>((await TickAsync(press, 2, "in a hurry")).Refusal);
        Assert.IsType<SayWhy>((await TickAsync(press, 1, new('x', OrderLog.LongestText + 1))).Refusal);
        await using (var db = press.Store.Open())
        {
            Assert.Empty(await db.OrderFacts.ToListAsync(Cancel));
            Assert.All(await db.FinishSteps.ToListAsync(Cancel), s => Assert.Null(s.DoneAt));
        }

        Assert.True((await TickAsync(press, 1, " the client stands here ")).Granted);
        Assert.True((await TickAsync(press, 1)).Granted); // again: nothing is written twice
        Assert.True((await TickAsync(press, 2)).Granted);
        await using var after = press.Store.Open();
        var fact = await after.OrderFacts.SingleAsync(Cancel);
        Assert.Equal((FactKind.DriedShort, PressRoom.Mira), (fact.Kind, fact.By));
        Assert.EndsWith("the client stands here", fact.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task When_they_are_dry_nothing_has_to_be_said()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        await press.ChangeAsync(async db => (await db.Papers.SingleAsync(Cancel)).DryingHours = 4);
        await new PlanFinishing(press.Store).RunAsync(new(PressRoom.Order, HandOut.Sent, PackedAs.Flat, Coat: false), Cancel);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        await press.StartAsync(run);
        await RecordAsync(press, run);
        press.Clock.Advance(TimeSpan.FromHours(4));
        Assert.True((await TickAsync(press, 1, "asked for nothing")).Granted);
        await using var db = press.Store.Open();
        Assert.Empty(await db.OrderFacts.ToListAsync(Cancel));
    }

    [Fact]
    public async Task A_complaint_makes_an_order_that_is_made_alike_and_says_who_pays()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        await press.ChangeAsync(async db =>
        {
            var order = await db.Orders.SingleAsync(Cancel);
            (order.State, order.OutAt, order.Deposit) = (OrderState.Done, press.Clock.GetUtcNow(), 20);
            db.OrderQuotes.Add(new() { Order = PressRoom.Order, Number = 1, At = press.Clock.GetUtcNow(), By = PressRoom.Mira, Currency = "thaler", Cost = 10, Net = 50, Tax = 10, Text = "" });
        });
        var note = new NoteComplaint(press.Store, new(Path.Combine(folder, "files")), press.Clock);
        var wish = new NoteComplaint.Request(CommandId.New(), PressRoom.Mira, PressRoom.Order, 1, "a crease", WhoPays.Room, CameBack: true, 1, press.Clock.GetUtcNow().AddDays(3));
        var done = (await note.RunAsync(wish, Cancel)).Value!;
        Assert.Equal(done, (await note.RunAsync(wish, Cancel)).Value);
        Assert.IsType<NoteComplaint.MoreThanMade>((await note.RunAsync(wish with { Command = CommandId.New(), MakeAgain = 3 }, Cancel)).Refusal);

        await press.ChangeAsync(async db => (await db.Orders.SingleAsync(o => o.Number == done.Remake, Cancel)).OutAt = press.Clock.GetUtcNow());
        await using var db = press.Store.Open();
        var again = await db.PrintLines.SingleAsync(l => l.Order == done.Remake, Cancel);
        Assert.Equal(("01", 1, null), (again.ImageHash, again.Copies, again.PreparedHash));
        Assert.Equal(
            "order,client,reference,out,currency,net,tax,gross,deposit,to_pay,note\r\n"
            + "2211,\"An invented gallery\",\"\",\"2026-03-02\",\"thaler\",50.00,10.00,60.00,20.00,40.00,\"\"\r\n"
            + $"{done.Remake},\"An invented gallery\",\"\",\"2026-03-02\",\"\",0.00,0.00,0.00,0.00,0.00,\"remake of 2211, the room pays\"\r\n",
            await new ShowFinishing(press.Store).InvoicesAsync(Cancel));
    }

    [Fact]
    public async Task Photographs_stay_with_the_complaint_and_what_is_none_is_refused()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        var files = new FileShelf(Path.Combine(folder, "files"));
        var kept = await files.KeepMadeAsync(Pictures.Good(folder, "crease.tif"), Cancel);
        var words = await files.KeepAsync(new MemoryStream("a crease"u8.ToArray()), Cancel);
        var note = new NoteComplaint(press.Store, files, press.Clock);
        var wish = new NoteComplaint.Request(CommandId.New(), PressRoom.Mira, PressRoom.Order, 1, "a crease", WhoPays.Supplier, CameBack: true, 0, default, [kept.Hash, kept.Hash]);
        Assert.IsType<NoteComplaint.NoPhotograph>((await note.RunAsync(wish with { Shown = [kept.Hash, words.Hash] }, Cancel)).Refusal);
        Assert.IsType<NoteComplaint.NoPhotograph>((await note.RunAsync(wish with { Shown = ["../room.db"] }, Cancel)).Refusal);
        var done = (await note.RunAsync(wish, Cancel)).Value!;
        var jpeg = await new ShowPhotograph(press.Store, files).RunAsync(done.Complaint, 2, Cancel);
        Assert.Equal([0xFF, 0xD8, 0xFF], jpeg![..3]);
        Assert.Null(await new ShowPhotograph(press.Store, files).RunAsync(99, cancel: Cancel));
        Assert.Null(await new ShowPhotograph(press.Store, files).RunAsync(done.Complaint, 3, Cancel));
        Assert.IsType<NoteComplaint.TooManyPhotographs>((await note.RunAsync(wish with { Shown = [.. Enumerable.Repeat(kept.Hash, NoteComplaint.MostPhotographs + 1)] }, Cancel)).Refusal);
    }

    private static Task<Outcome<TickFinishing.Done>> TickAsync(PressRoom press, int step, string why = "") =>
        new TickFinishing(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, PressRoom.Order, step, why), Cancel);

    private static Task<Outcome<RecordRun.Done>> RecordAsync(PressRoom press, int run) =>
        new RecordRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, run, []), Cancel);

    private static Task<Outcome<HandOutOrder.Done>> OutAsync(PressRoom press) =>
        new HandOutOrder(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, PressRoom.Order, HandOut.Sent, "carrier 17"), Cancel);
}
