using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Layout;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Layout;

public class FillRunTest
{
    private const int Other = 2212;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(2, 2, true)]
    [InlineData(2, 3, false)]
    [InlineData(0, 0, true)]
    [InlineData(0, 1, false)]
    public async Task Promises_farther_apart_than_the_room_allows_do_not_share_a_run(int mixDays, int daysLater, bool shares)
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 100, 100, 1));
        await press.ChangeAsync(db =>
        {
            db.LayoutSettings.Add(new() { MixDays = mixDays });
            return Task.CompletedTask;
        });
        await WaitingAsync(press, FreshRoom.Cotton, daysLater, goesAlong: false);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.Equal(shares, (await PageAsync(press, run)).Offers.Any(o => o.Order == Other));
        Assert.Equal(shares, (await FillAsync(press, run)).Granted);
    }

    [Fact]
    public async Task What_goes_along_does_so_whatever_day_is_promised()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 100, 100, 1));
        await WaitingAsync(press, FreshRoom.Cotton, 90, goesAlong: true);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await FillAsync(press, run)).Granted);
        var page = await PageAsync(press, run);
        Assert.Equal([PressRoom.Order, Other], page.Prints.Select(p => p.Lies.Order).Order());
        Assert.Equal(1, page.Layout.Needs);
        Assert.Empty(page.Offers);
    }

    [Fact]
    public async Task Papers_are_never_mixed()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 100, 100, 1));
        await press.ChangeAsync(db =>
        {
            db.Papers.Add(new() { Code = new("other"), Name = "Another", Class = PaperClass.Matte, Base = PaperBase.Cotton, Coat = Coat.Dull, Grammage = 200, Feed = Feed.Stack });
            return Task.CompletedTask;
        });
        await WaitingAsync(press, new("other"), 0, goesAlong: true);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.Empty((await PageAsync(press, run)).Offers);
        Assert.IsType<FillRun.MayNotShare>((await FillAsync(press, run)).Refusal);
    }

    [Fact]
    public async Task A_roll_that_would_be_too_short_to_load_again_is_used_to_its_end()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 600, 500, 1));
        await WaitingAsync(press, FreshRoom.Cotton, 0, goesAlong: false);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.Roll, 1_000));
        var before = await PageAsync(press, run);
        Assert.True(before.TooShort);
        Assert.Equal(500, before.Rest.Millimetres);
        Assert.Equal(1, before.Offers.Single().Fit);
        var filled = await FillAsync(press, run);
        Assert.True(filled.Granted, filled.Refusal?.Message);
        Assert.Equal(600, filled.Value.Needs); // the large one upright, the small one beside it
    }

    [Theory]
    [InlineData(12, "You asked for 12, and 1 waits. Nothing was changed.")]
    [InlineData(-1, "Fewer than none: 1 waits.")]
    public async Task More_than_wait_are_refused_with_both_numbers(int asked, string says)
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 100, 100, 1));
        await WaitingAsync(press, FreshRoom.Cotton, 0, goesAlong: false);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var refused = Assert.IsType<FillRun.MoreThanWait>((await FillAsync(press, run, asked)).Refusal);
        Assert.Equal((Other, 1, says), (refused.Order, refused.Line, refused.Message));
        Assert.Equal(1, (await PageAsync(press, run)).Layout.Prints);
    }

    [Fact]
    public async Task A_roll_that_lasts_is_not_made_longer_use_of()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 600, 500, 1));
        await WaitingAsync(press, FreshRoom.Cotton, 0, goesAlong: false);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.Roll, 10_000));
        Assert.Empty((await PageAsync(press, run)).Offers);
        Assert.IsType<FillRun.DoesNotFit>((await FillAsync(press, run)).Refusal);
    }

    private static Task WaitingAsync(PressRoom press, PaperCode paper, int daysLater, bool goesAlong) => press.ChangeAsync(async db =>
    {
        var first = await db.Orders.SingleAsync(Cancel);
        db.Orders.Add(new() { Number = Other, Client = 1, TakenAt = first.TakenAt, TakenBy = PressRoom.Mira, Promised = first.Promised.AddDays(daysLater), State = Goodsheet.Room.Orders.OrderState.Approved });
        db.PrintLines.Add(new()
        {
            Order = Other,
            Line = 1,
            Title = "Weir",
            ImageHash = "01",
            ImageName = "weir.tif",
            PixelsWide = 1000,
            PixelsHigh = 1000,
            Width = Length.FromMillimetres(100),
            Height = Length.FromMillimetres(100),
            Paper = paper,
            Copies = 1,
            PreparedHash = "02",
            GoesAlong = goesAlong,
        });
    });

    private static async Task<ShowLayout.Page> PageAsync(PressRoom press, int run) =>
        Assert.IsType<ShowLayout.Page>(await new ShowLayout(press.Store, press.Clock).RunAsync(run, Cancel));

    private static Task<Outcome<FillRun.Done>> FillAsync(PressRoom press, int run, int copies = 1) =>
        new FillRun(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, run, 0, [new(Other, 1, copies)]), Cancel);
}
