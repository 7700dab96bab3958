using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Layout;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Layout;

public class ChangeLayoutTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_print_is_moved_and_stays_and_the_rest_is_laid_around_it()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 150, 200, 1), ("Weir", 120, 90, 3));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var outcome = await EditAsync(press, run, 0, Edit.Move, await OneAsync(press, run, "Reeds"), x: 100, y: 60);
        Assert.True(outcome.Granted, outcome.Refusal?.Message);
        var page = await PageAsync(press, run);
        var reeds = page.Prints.Single(p => p.Lies.Title == "Reeds").Lies;
        Assert.Equal((100, 60, true), (reeds.At.X, reeds.At.Y, reeds.Held));
        Assert.Equal(4, page.Prints.Count);
        Assert.Equal(["Moved to", "As it wa"], page.Steps.Select(s => s.What[..8]));
    }

    [Fact]
    public async Task What_cannot_be_is_refused_and_nothing_changes()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 150, 200, 2));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var before = (await PageAsync(press, run)).Layout.ToJson();
        Assert.IsType<AroundHeld.OverTheEdge>((await EditAsync(press, run, 0, Edit.Move, (1, 1), x: 300, y: 60)).Refusal);
        Assert.IsType<ChangeLayout.NotAPlace>((await EditAsync(press, run, 0, Edit.Move, (1, 1), x: double.NaN, y: 0)).Refusal);
        Assert.IsType<ChangeLayout.NoSuchPrint>((await EditAsync(press, run, 0, Edit.Turn, (1, 3))).Refusal);
        Assert.Equal(before, (await PageAsync(press, run)).Layout.ToJson());
        Assert.Empty((await PageAsync(press, run)).Steps);
    }

    [Fact]
    public async Task Two_that_are_kept_do_not_come_on_each_other()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 150, 200, 1), ("Weir", 120, 90, 1));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var kept = await EditAsync(press, run, 0, Edit.Keep, await OneAsync(press, run, "Reeds"));
        Assert.True(kept.Granted, kept.Refusal?.Message);
        var reeds = (await PageAsync(press, run)).Prints.Single(p => p.Lies.Title == "Reeds").Lies.At;
        Assert.IsType<AroundHeld.TooNearTogether>((await EditAsync(press, run, 1, Edit.Move, await OneAsync(press, run, "Weir"), x: reeds.X + 10, y: reeds.Y + 10)).Refusal);
    }

    [Fact]
    public async Task A_print_with_a_direction_is_never_laid_turned_by_search_or_by_hand()
    {
        // Turned, three of them would lie side by side on A2.
        await using var press = await PressRoom.OpenAsync(("Reeds", 400, 130, 3));
        await press.ChangeAsync(async db => (await db.PrintLines.SingleAsync(Cancel)).MayTurn = false);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.All((await PageAsync(press, run)).Prints, p => Assert.Equal(400, p.Lies.At.Width));
        Assert.IsType<AroundHeld.MayNotBeTurned>((await EditAsync(press, run, 0, Edit.Turn, (1, 1))).Refusal);
    }

    [Fact]
    public async Task On_paper_with_a_grain_nothing_is_turned()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 130, 400, 3), ("Weir", 200, 100, 2));
        await press.ChangeAsync(async db => (await db.Papers.SingleAsync(p => p.Code == FreshRoom.Cotton, Cancel)).OneWay = true);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.All((await PageAsync(press, run)).Prints, p => Assert.Equal(p.Lies.Title == "Reeds" ? 130 : 200, p.Lies.At.Width));
    }

    [Fact]
    public async Task Margins_of_the_feed_path_are_kept_free()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 190, 140, 9));
        await press.ChangeAsync(db =>
        {
            db.FeedMargins.Add(new() { Printer = FreshRoom.Heron, Feed = Goodsheet.Room.Papers.Feed.OneByOne, Left = Mm(3), Right = Mm(7), Lead = Mm(20), Tail = Mm(31) });
            return Task.CompletedTask;
        });
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var layout = (await PageAsync(press, run)).Layout;
        foreach (var sheet in layout.Sheets)
        {
            Assert.All(sheet.Prints, p => Assert.True(
                p.At.X >= 3 && p.At.Y >= 20 && p.At.X + p.At.Width <= sheet.Width - 7 && p.At.Y + p.At.Height <= sheet.Height - 31, $"{p.At}"));
        }

        Assert.Equal(new RunLayout.Free(3, 7, 20, 31), layout.Edges);
    }

    [Fact]
    public async Task Taken_out_a_print_waits_again_and_going_back_takes_it_in()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 150, 200, 3));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await EditAsync(press, run, 0, Edit.TakeOut, (1, 1))).Granted);
        Assert.Equal(2, await CopiesAsync(press, run));
        Assert.True((await EditAsync(press, run, 1, Edit.GoBack, (0, 0), to: 0)).Granted);
        Assert.Equal(3, await CopiesAsync(press, run));
        Assert.Equal(3, (await PageAsync(press, run)).Steps.Count);
        Assert.True((await EditAsync(press, run, 2, Edit.TakeOut, (1, 1))).Granted);
        Assert.True((await EditAsync(press, run, 3, Edit.TakeOut, (1, 1))).Granted);
        Assert.IsType<ChangeLayout.LastPrint>((await EditAsync(press, run, 4, Edit.TakeOut, (1, 1))).Refusal);
    }

    [Fact]
    public async Task What_was_taken_out_and_laid_elsewhere_cannot_come_back()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 150, 200, 3));
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var run = await press.PlannedAsync(lot);
        Assert.True((await EditAsync(press, run, 0, Edit.TakeOut, (1, 1))).Granted);
        Assert.NotEqual(run, await press.PlannedAsync(lot));
        Assert.IsType<NotWaiting>((await EditAsync(press, run, 1, Edit.GoBack, (0, 0), to: 0)).Refusal);
    }

    [Fact]
    public async Task Somebody_elses_change_is_not_overwritten_unseen()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 150, 200, 3));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await EditAsync(press, run, 0, Edit.Keep, (1, 1))).Granted);
        Assert.IsType<ChangedMeanwhile>((await EditAsync(press, run, 0, Edit.Keep, (1, 2))).Refusal);
    }

    [Fact]
    public async Task A_run_that_has_begun_is_not_laid_otherwise()
    {
        await using var press = await PressRoom.OpenAsync(("Reeds", 150, 200, 3));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await press.StartAsync(run)).Granted);
        Assert.IsType<StartRun.HasBegun>((await EditAsync(press, run, 0, Edit.Keep, (1, 1))).Refusal);
        Assert.NotNull((await PageAsync(press, run)).Closed);
    }

    private static Length Mm(decimal mm) => Length.FromMillimetres(mm);

    private static Task<Goodsheet.Room.Outcome<ChangeLayout.Done>> EditAsync(
        PressRoom press, int run, int step, Edit what, (int Sheet, int Print) one, double x = 0, double y = 0, int to = 1) =>
        new ChangeLayout(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, run, step, what, one.Sheet, one.Print, to, x, y), Cancel);

    private static async Task<ShowLayout.Page> PageAsync(PressRoom press, int run) =>
        Assert.IsType<ShowLayout.Page>(await new ShowLayout(press.Store, press.Clock).RunAsync(run, Cancel));

    private static async Task<(int Sheet, int Print)> OneAsync(PressRoom press, int run, string title)
    {
        var print = (await PageAsync(press, run)).Prints.First(p => p.Lies.Title == title);
        return (print.Sheet, print.Number);
    }

    private static async Task<int> CopiesAsync(PressRoom press, int run)
    {
        await using var db = press.Store.Open();
        return await db.RunPrints.Where(p => p.Run == run).SumAsync(p => p.Copies, Cancel);
    }
}
