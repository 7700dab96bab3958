using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Orders;
using Goodsheet.App.Plan;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Tests.Plan;

public sealed class HandoverTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_is_left_in_the_evening_is_found_dry_in_the_morning()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        await press.ChangeAsync(async db => (await db.Papers.SingleAsync(Cancel)).DryingHours = 12);
        var show = new ShowHandover(press.Store, press.Clock);
        press.Clock.SetUtcNow(new(2026, 3, 2, 16, 0, 0, TimeSpan.Zero)); // a Monday; the room closes at 17:30
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.Equal(run, Assert.Single((await show.RunAsync(Cancel)).Left).Run.Number);

        Assert.True((await press.StartAsync(run)).Granted);
        var evening = await show.RunAsync(Cancel);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 17, 30, 0, TimeSpan.Zero), evening.Closes);
        var printing = Assert.Single(evening.Printing);
        Assert.Equal(("Heron", 2), (printing.Printer, printing.Prints));
        Assert.Empty(evening.Left);

        press.Clock.SetUtcNow(new(2026, 3, 2, 17, 15, 0, TimeSpan.Zero));
        Assert.True((await new RecordRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, run, []), Cancel)).Granted);
        await new PlanFinishing(press.Store).RunAsync(new(PressRoom.Order, HandOut.Sent, PackedAs.Flat, Coat: false), Cancel);
        var night = await show.RunAsync(Cancel);
        Assert.Equal(new DateTimeOffset(2026, 3, 3, 5, 15, 0, TimeSpan.Zero), Assert.Single(night.Drying).DryAt);
        Assert.StartsWith("Trim", night.Drying[0].Next!, StringComparison.Ordinal);
        Assert.Empty(night.ToFinish);

        press.Clock.SetUtcNow(new(2026, 3, 3, 5, 15, 0, TimeSpan.Zero)); // dry to the minute, and nobody there
        var morning = await show.RunAsync(Cancel);
        Assert.Null(morning.Closes);
        Assert.Empty(morning.Drying);
        Assert.Equal(PressRoom.Order, Assert.Single(morning.ToFinish).Order.Number);

        await press.ChangeAsync(async db => (await db.Orders.SingleAsync(Cancel)).OutAt = press.Clock.GetUtcNow());
        Assert.Empty((await show.RunAsync(Cancel)).ToFinish);
    }

    [Fact]
    public async Task A_run_that_is_fed_by_hand_does_not_go_on_when_everybody_has_gone()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        press.Clock.SetUtcNow(new(2026, 3, 2, 17, 29, 0, TimeSpan.Zero));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await press.StartAsync(run)).Granted);
        await using var db = press.Store.Open();
        var feed = (await db.Papers.SingleAsync(Cancel)).Feed;
        var printing = Assert.Single((await new ShowHandover(press.Store, press.Clock).RunAsync(Cancel)).Printing);
        Assert.True(printing.Ends > press.Clock.GetUtcNow().AddMinutes(1));
        Assert.Equal(AfterHoursRule.Of(feed, printing.Ends, press.Clock.GetUtcNow()), printing.After);
        Assert.NotEqual(AfterHours.EndsInTime, printing.After);
    }
}
