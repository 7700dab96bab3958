using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Printing;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Orders;

public class OrderFactsTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_print_on_hold_is_begun_only_by_a_persons_recorded_decision()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.IsType<SayWhy>((await HoldAsync(press, HoldOrder.To.Hold, " ")).Refusal);
        Assert.True((await HoldAsync(press, HoldOrder.To.Hold, "the larger file is awaited")).Granted);

        var stopped = Assert.IsType<StartRun.OrderStopsIt>((await press.StartAsync(run)).Refusal);
        Assert.Contains("the larger file is awaited", stopped.Message, StringComparison.Ordinal);
        Assert.Contains("on hold", await SendAsync(press, run), StringComparison.Ordinal);
        Assert.True(Assert.IsType<StartRun.OrderStopsIt>((await StartAsync(press, run, "it is urgent", PersonName.Somebody)).Refusal).Nameless);

        Assert.True((await StartAsync(press, run, "the client rang: take the small one", PressRoom.Mira)).Granted);
        await using var db = press.Store.Open();
        var decision = await db.Decisions.SingleAsync(Cancel);
        Assert.Equal(($"order {PressRoom.Order}", PressRoom.Mira), (decision.About, decision.By));
        Assert.StartsWith("the client rang", decision.Why, StringComparison.Ordinal);
        Assert.Equal([FactKind.PutOnHold, FactKind.Decided], await db.OrderFacts.OrderBy(f => f.Number).Select(f => f.Kind).ToListAsync(Cancel));
        Assert.DoesNotContain("on hold", await SendAsync(press, run), StringComparison.Ordinal); // the decision lets the files go, too
    }

    [Fact]
    public async Task What_goes_on_is_begun_without_a_decision()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await HoldAsync(press, HoldOrder.To.Hold, "who pays?")).Granted);
        Assert.True((await HoldAsync(press, HoldOrder.To.GoOn, "")).Granted);
        Assert.True((await press.StartAsync(run)).Granted);
    }

    [Fact]
    public async Task A_proof_holds_the_print_until_it_is_approved_and_says_by_whom_which_file_and_which_proof()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var command = CommandId.New();
        var asked = new AskApproval.Request(command, PressRoom.Mira, PressRoom.Order, ApprovalOf.Proof, "by post");
        Assert.True((await new AskApproval(press.Store, press.Clock).RunAsync(asked, Cancel)).Granted);
        Assert.True((await new AskApproval(press.Store, press.Clock).RunAsync(asked, Cancel)).Granted);
        Assert.Contains("not approved", (await press.StartAsync(run)).Refusal!.Message, StringComparison.Ordinal);

        var approve = new ApproveOrder(press.Store, press.Clock);
        Assert.IsType<ApproveOrder.WhoApproved>((await approve.RunAsync(new(CommandId.New(), PressRoom.Mira, PressRoom.Order, " ", ""), Cancel)).Refusal);
        Assert.True((await approve.RunAsync(new(CommandId.New(), PressRoom.Mira, PressRoom.Order, "An invented curator", "drawer 4"), Cancel)).Granted);
        Assert.True((await press.StartAsync(run)).Granted);

        var facts = (await new ShowOrders(press.Store).OneAsync(PressRoom.Order, Cancel))!.Facts;
        Assert.Equal([FactKind.Approved, FactKind.ProofSent], facts.Select(f => f.Kind));
        var yes = facts[0];
        Assert.Equal(("An invented curator", "drawer 4", "picture.tif (01)", "Test Cotton 300, profile 7, relative"), (yes.ByClient, yes.Text, yes.Files, yes.Proof));
    }

    [Fact]
    public async Task What_is_changed_after_approval_is_to_be_approved_again_and_prepared_again()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        await new AskApproval(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, PressRoom.Order, ApprovalOf.Quotation, ""), Cancel);
        await new ApproveOrder(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, PressRoom.Order, "An invented curator", ""), Cancel);

        var done = await ChangeAsync(press, 330, EdgeKind.Wrap, 40);
        Assert.True(done.Granted && done.Value.ToApproveAgain, done.Refusal?.Message);
        var page = (await new ShowOrders(press.Store).OneAsync(PressRoom.Order, Cancel))!;
        Assert.Equal((OrderState.Quoted, null, null), (page.Order.State, page.Order.ApprovedAt, page.Prints[0].PreparedHash));
        Assert.Equal("Print 1: 300 × 200 mm becomes 330 × 200 mm, white edge becomes wrap of 40 mm. the wall is wider", page.Facts[0].Text);
        Assert.Equal(Length.FromMillimetres(410), page.Prints[0].FullWidth);
    }

    [Fact]
    public async Task A_print_that_is_laid_out_in_a_run_is_not_changed_under_it()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.IsType<ChangePrint.IsInARun>((await ChangeAsync(press, 330, EdgeKind.White, 0)).Refusal);
        Assert.IsType<PrintWish.NoSuchEdge>((await ChangeAsync(press, 330, EdgeKind.White, 3)).Refusal);
        Assert.IsType<PrintWish.WiderThanThePicture>((await ChangeAsync(press, 100, EdgeKind.Wrap, 150)).Refusal);
    }

    [Fact]
    public async Task A_deposit_is_summed_once_for_each_wish_and_not_paid_back_beyond_what_was_paid()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        var note = new NoteDeposit(press.Store, press.Clock);
        var first = new NoteDeposit.Request(CommandId.New(), PressRoom.Mira, PressRoom.Order, 40.50m, "card");
        Assert.Equal(40.50m, (await note.RunAsync(first, Cancel)).Value!.Together);
        Assert.Equal(40.50m, (await note.RunAsync(first, Cancel)).Value!.Together);
        Assert.IsType<NoteDeposit.MoreThanPaid>((await note.RunAsync(new(CommandId.New(), PressRoom.Mira, PressRoom.Order, -40.51m, ""), Cancel)).Refusal);
        Assert.IsType<NoteDeposit.NoAmount>((await note.RunAsync(new(CommandId.New(), PressRoom.Mira, PressRoom.Order, 0.001m, ""), Cancel)).Refusal);
        Assert.Equal(0m, (await note.RunAsync(new(CommandId.New(), PressRoom.Mira, PressRoom.Order, -40.50m, "back"), Cancel)).Value!.Together);
    }

    private static Task<Outcome<HoldOrder.Done>> HoldAsync(PressRoom press, HoldOrder.To to, string why) =>
        new HoldOrder(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, PressRoom.Order, to, why), Cancel);

    private static Task<Outcome<StartRun.Done>> StartAsync(PressRoom press, int run, string why, PersonName by) =>
        new StartRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), by, run, why, BlackIsIn: true), Cancel);

    private static Task<string> SendAsync(PressRoom press, int run) =>
        new SendSheets(press.Store, new FileShelf(Path.Combine(Path.GetTempPath(), "goodsheet-no-files")), press.Clock, null!).DoNowAsync($"Sheets of run {run}", Cancel);

    private static Task<Outcome<ChangePrint.Done>> ChangeAsync(PressRoom press, int width, EdgeKind edge, int around) =>
        new ChangePrint(press.Store, new FileShelf(Path.Combine(Path.GetTempPath(), "goodsheet-no-files")), press.Clock).RunAsync(new(
            PressRoom.Mira, PressRoom.Order, 1, Length.FromMillimetres(width), Length.FromMillimetres(200), Length.Zero, edge, Length.FromMillimetres(around), FreshRoom.Cotton, 1, "the wall is wider"), Cancel);
}
