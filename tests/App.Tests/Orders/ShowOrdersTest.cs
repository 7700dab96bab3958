using Goodsheet.App.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Profiles;
using Microsoft.EntityFrameworkCore;

namespace Goodsheet.App.Tests.Orders;

public class ShowOrdersTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_is_promised_is_in_the_book_and_what_is_done_is_not()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        var show = new ShowOrders(press.Store);

        var line = Assert.Single(await show.RunAsync(cancel: Cancel));
        Assert.Equal(PressRoom.Order, line.Order.Number);
        Assert.Equal("Low Water", Assert.Single(line.Prints).Title);
        Assert.Empty(await show.RunAsync(done: true, Cancel));

        await press.ChangeAsync(db => db.Orders.ExecuteUpdateAsync(o => o.SetProperty(x => x.State, OrderState.Done), Cancel));
        Assert.Empty(await show.RunAsync(cancel: Cancel));
        Assert.Single(await show.RunAsync(done: true, Cancel));
    }

    [Fact]
    public async Task A_line_whose_paper_does_not_hold_its_colours_comes_with_the_profile_that_shows_where()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1));
        var show = new ShowOrders(press.Store);
        Assert.Empty((await show.OneAsync(PressRoom.Order, Cancel))!.NotHeld);

        await press.ChangeAsync(db =>
        {
            db.Findings.Add(new() { Order = PressRoom.Order, Line = 1, Number = 1, Kind = "colours not held", Severity = Severity.ToKnow, Text = "a tenth" });
            return Task.CompletedTask;
        });

        Assert.Equal(1, Assert.Single((await show.OneAsync(PressRoom.Order, Cancel))!.NotHeld).Key);
    }

    // Preparing waits for a profile alone: not for paper on the shelf, and a drifting profile still makes a file.
    [Theory]
    [InlineData(Standing.Trusted, true)]
    [InlineData(Standing.Drifting, true)]
    [InlineData(Standing.New, false)]
    public async Task A_file_can_be_prepared_as_soon_as_its_paper_has_a_profile_to_print_with(Standing standing, bool can)
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 1)); // no paper is here
        await press.ChangeAsync(async db =>
        {
            await db.PrintLines.ExecuteUpdateAsync(l => l.SetProperty(x => x.PreparedHash, (string?)null), Cancel);
            await db.Profiles.ExecuteUpdateAsync(p => p.SetProperty(x => x.Standing, standing), Cancel);
        });
        Assert.Equal(can ? [] : [1], (await new ShowOrders(press.Store).OneAsync(PressRoom.Order, Cancel))!.NoProfile);
    }
}
