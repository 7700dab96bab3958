using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Runs;

public sealed class RecordRunTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_sheet_that_gave_one_good_print_is_booked_good_and_its_lost_print_is_counted_apart()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 4)); // two on a sheet
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var run = await BegunAsync(press, lot);
        var done = await RecordAsync(press, run, [new(1, WasteCause.Dust, Sheet: 1), new(2, WasteCause.Curl, Sheet: 2)]);

        Assert.Equal(new RecordRun.Done(run, 1, 3, false), done.Value);
        Assert.Equal((3L, 0L), await LeftAsync(press, lot));
        await using var db = press.Store.Open();
        Assert.Equal([(Account.Good, 1L), (Account.Waste(WasteCause.Curl), 1L)], await BookedAsync(press, run));
        Assert.Equal(
            [(WasteCause.Curl, 2, 1L), (WasteCause.Dust, 1, 0L)],
            (await db.RunWaste.OrderBy(w => w.Number).ToListAsync(Cancel)).Select(w => (w.Cause, w.Prints, w.Paper)));
        Assert.Equal((1, 3, 3), await db.PrintLines.Select(l => ValueTuple.Create(l.Good, l.Wasted, l.Copies - l.Good)).SingleAsync(Cancel));
        Assert.Equal(OrderState.Approved, (await db.Orders.SingleAsync(Cancel)).State);
    }

    [Fact]
    public async Task A_stopped_run_brings_back_what_it_did_not_use_and_its_rest_is_laid_again()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 6)); // three sheets
        var lot = await press.StockAsync(FreshRoom.A2, 3);
        var run = await BegunAsync(press, lot);
        var done = await RecordAsync(press, run, [], printed: 1);

        Assert.Equal(new RecordRun.Done(run, 2, 0, true), done.Value);
        Assert.Equal((2L, 0L), await LeftAsync(press, lot));
        await using var db = press.Store.Open();
        Assert.Equal(RunState.Stopped, (await db.Runs.SingleAsync(Cancel)).State);
        Assert.Equal(4, (await db.PrintLines.SingleAsync(Cancel)).ToPrint);
        Assert.True((await press.PlanAsync(lot)).Granted);
    }

    [Fact]
    public async Task A_roll_is_booked_by_the_millimetre_and_the_print_that_the_stop_cut_off_is_lost()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 560, 400, 2));
        var lot = await press.StockAsync(FreshRoom.Roll, 15_000);
        var run = await BegunAsync(press, lot);
        var second = (await new ShowRuns(press.Store).CardAsync(run, Cancel))!.Layout.Sheets[0].Prints.Max(p => p.At.Y);
        var done = await RecordAsync(press, run, [], printed: (long)second + 100, WasteCause.Misfeed);

        Assert.Equal(new RecordRun.Done(run, 1, 1, true), done.Value);
        Assert.Equal((15_000L - (long)second - 100, 0L), await LeftAsync(press, lot));
        Assert.Equal(100, (await BookedAsync(press, run)).Single(b => b.To == Account.Waste(WasteCause.Misfeed)).Quantity);
    }

    [Fact]
    public async Task What_cannot_be_is_refused_and_nothing_moves()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 4));
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var run = await BegunAsync(press, lot);
        Assert.Equal(new RecordRun.WhichSheet(2), (await RecordAsync(press, run, [new(1, WasteCause.Dust)])).Refusal);
        Assert.Equal(new RecordRun.NotSoMany(3, 2, 1), (await RecordAsync(press, run, [new(3, WasteCause.Dust, Sheet: 1)])).Refusal);
        Assert.Equal(new RecordRun.NotPrintedSoFar(3, 2), (await RecordAsync(press, run, [], printed: 3)).Refusal);
        Assert.Equal((3L, 2L), await LeftAsync(press, lot));
    }

    [Theory]
    [InlineData(Standing.Trusted, true)]
    [InlineData(Standing.Due, true)]
    [InlineData(Standing.New, false)]
    [InlineData(Standing.Drifting, false)]
    [InlineData(Standing.Retired, false)]
    public async Task A_run_begins_only_on_a_profile_that_is_trusted_or_due(Standing standing, bool begins)
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var run = await press.PlannedAsync(lot);
        await press.ChangeAsync(async db => (await db.Profiles.FindAsync([PressRoom.Profile], Cancel))!.Standing = standing);
        var started = await press.StartAsync(run);
        Assert.Equal(begins, started.Granted);
        Assert.True(begins || started.Refusal is StartRun.IsStopped { Stops: [{ Why: RunRules.ProfileIsNotTrusted }] });
        Assert.Equal(begins ? (4L, 1L) : (5L, 0L), await LeftAsync(press, lot));
    }

    [Fact]
    public async Task Written_down_twice_it_is_booked_once()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 2));
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var run = await BegunAsync(press, lot);
        var record = new RecordRun(press.Store, press.Clock);
        var wish = CommandId.New();
        var first = await record.RunAsync(new(wish, PressRoom.Mira, run, [new(1, WasteCause.Dust)]), Cancel);
        var again = await record.RunAsync(new(wish, PressRoom.Mira, run, [new(1, WasteCause.Dust)]), Cancel);
        Assert.Equal(first.Value, again.Value);
        Assert.Equal([(Account.Good, 1L)], await BookedAsync(press, run));
    }

    private static async Task<int> BegunAsync(PressRoom press, LotCode lot)
    {
        var run = await press.PlannedAsync(lot);
        Assert.True((await press.StartAsync(run)).Granted);
        return run;
    }

    private static Task<Outcome<RecordRun.Done>> RecordAsync(
        PressRoom press, int run, IReadOnlyList<RecordRun.Waste> wasted, long? printed = null, WasteCause stoppedBy = WasteCause.Other) =>
        new RecordRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, run, wasted, printed, stoppedBy), Cancel);

    private static async Task<(long OnShelf, long AtPrinter)> LeftAsync(PressRoom press, LotCode lot)
    {
        var balance = await press.BalanceAsync(lot);
        return (balance.OnShelf, balance.Of(Account.At(FreshRoom.Heron)));
    }

    private static async Task<List<(Account To, long Quantity)>> BookedAsync(PressRoom press, int run)
    {
        await using var db = press.Store.Open();
        var moves = await db.Moves.Where(m => m.Reference == $"run {run}" && m.Reason == "printed").OrderBy(m => m.Number).ToListAsync(Cancel);
        return [.. moves.Select(m => (m.To, m.Quantity))];
    }
}
