using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Layout;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Layout;

public class KeepOffcutsTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_offcut_comes_back_as_stock_and_is_proposed_first_for_a_small_job()
    {
        // A2 is 420 × 594 mm: below a print that is as wide lies a part of 329 mm: nothing is cleared off it, and the margin at its end stays on.
        await using var press = await PressRoom.OpenAsync(("Reeds", 410, 260, 1));
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var run = await press.PlannedAsync(lot);
        Assert.True((await press.StartAsync(run)).Granted);
        Assert.Empty(await Keeping(press).ShowAsync(run, Cancel));
        var recorded = await new RecordRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, run, []), Cancel);
        Assert.True(recorded.Granted, recorded.Refusal?.Message);

        var offcut = Assert.Single(await Keeping(press).ShowAsync(run, Cancel));
        Assert.Equal((329, 410, 1), (offcut.Width.Millimetres, offcut.Height.Millimetres, offcut.Pieces));
        var command = CommandId.New();
        var kept = await Keeping(press).RunAsync(new(command, PressRoom.Mira, run, [offcut]), Cancel);
        Assert.True(kept.Granted, kept.Refusal?.Message);
        var made = Assert.Single(kept.Value.Lots);
        Assert.Equal(1, (await press.BalanceAsync(made)).OnShelf);
        Assert.Empty(await Keeping(press).ShowAsync(run, Cancel));

        // The same wish again is done once; another is refused.
        Assert.Equal([made], (await Keeping(press).RunAsync(new(command, PressRoom.Mira, run, [offcut]), Cancel)).Value!.Lots);
        Assert.IsType<KeepOffcuts.KeptAlready>((await Keeping(press).RunAsync(new(CommandId.New(), PressRoom.Mira, run, [offcut]), Cancel)).Refusal);

        await press.ChangeAsync(async db => (await db.PrintLines.SingleAsync(Cancel)).Copies = 2);
        await press.ChangeAsync(async db => (await db.PrintLines.SingleAsync(Cancel)).Height = Length.FromMillimetres(200));
        await press.ChangeAsync(async db => (await db.PrintLines.SingleAsync(Cancel)).Width = Length.FromMillimetres(300));
        var lots = await new ProposeLots(press.Store, press.Clock).RunAsync(PressRoom.Order, Cancel);
        Assert.Equal([made, lot], lots.Select(l => l.Lot));
        Assert.True(lots[0] is { IsOffcut: true, Suffices: true, Needs: 1 });

        // A larger job is not sent to it.
        await press.ChangeAsync(async db => (await db.PrintLines.SingleAsync(Cancel)).Copies = 3);
        Assert.Equal([lot, made], (await new ProposeLots(press.Store, press.Clock).RunAsync(PressRoom.Order, Cancel)).Select(l => l.Lot));
    }

    [Fact]
    public async Task Offcuts_under_the_rooms_least_side_are_not_kept()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 410, 260, 1));
        await press.ChangeAsync(db =>
        {
            db.LayoutSettings.Add(new() { LeastOffcut = Length.FromMillimetres(330) });
            return Task.CompletedTask;
        });
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        await press.StartAsync(run);
        await new RecordRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, run, []), Cancel);
        Assert.Empty(await Keeping(press).ShowAsync(run, Cancel));
        var wished = await Keeping(press).RunAsync(new(CommandId.New(), PressRoom.Mira, run, [new(Length.FromMillimetres(329), Length.FromMillimetres(410), 1)]), Cancel);
        Assert.IsType<KeepOffcuts.NotThere>(wished.Refusal);
    }

    [Fact]
    public async Task Paper_that_was_not_printed_leaves_no_offcut()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 410, 260, 3));
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var run = await press.PlannedAsync(lot);
        await press.StartAsync(run);
        await using var db = press.Store.Open();
        var needs = (await db.Runs.SingleAsync(r => r.Number == run, Cancel)).Needs;
        Assert.Equal(2, needs);
        await new RecordRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, run, [], Printed: 1), Cancel);
        Assert.All(await Keeping(press).ShowAsync(run, Cancel), o => Assert.True(o.Width.Millimetres < 320));
    }

    private static KeepOffcuts Keeping(PressRoom press) => new(press.Store, press.Clock);
}
