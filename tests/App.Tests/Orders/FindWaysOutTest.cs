using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Tests.Orders;

/// <summary>A print is promised today and its paper is not here: each way out with its cost, its time and what it leaves to be bought.</summary>
public sealed class FindWaysOutTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Larger_paper_is_cut_by_the_exact_pattern_and_every_suppliers_way_is_reckoned()
    {
        // 16 prints of 200 x 280 mm want 16 sheets of A4; none is here, but five of A2, each of which gives four.
        await using var press = await PressRoom.OpenAsync(("Low Water", 200, 280, 16));
        await press.StockAsync(FreshRoom.A2, 5);
        await press.ChangeAsync(async db =>
        {
            db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A4, PackSize = 50 });
            db.Suppliers.Add(new() { Code = new("invented"), Name = "Invented Papers", TimeZone = "Europe/London", Carriage = 6 });
            db.Dispatches.Add(new() { Supplier = new("invented"), Name = "next day", CutOff = new(14, 30), LeadDays = 1 });
            db.Prices.Add(new() { Supplier = new("invented"), Paper = FreshRoom.Cotton, Format = FreshRoom.A4, From = new(2026, 1, 1), PackSize = 50, Price = 40 });
            db.Prices.Add(new() { Supplier = new("invented"), Paper = FreshRoom.Cotton, Format = FreshRoom.A2, From = new(2026, 1, 1), PackSize = 25, Price = 100 });
            db.Rates.Add(new() { Number = 1, From = new(2026, 1, 1), Currency = "groats", PersonPerMinute = 0.5m });
            await db.Orders.ExecuteUpdateAsync(o => o.SetProperty(x => x.Promised, press.Clock.GetUtcNow().AddHours(7)), Cancel);
        });
        var page = (await Ways(press).RunAsync(PressRoom.Order, Cancel))!;
        var print = Assert.Single(page.Prints);
        Assert.Equal((FreshRoom.A4, 16, 0), (print.Format!.Code, print.Wants, print.Has));
        Assert.True(await Ways(press).IsShortAsync(PressRoom.Order, Cancel));

        var cut = print.Ways[0];
        Assert.Equal((WayKind.CutDown, "Cut 4 sheets of A2 into A4"), (cut.Kind, cut.What));
        Assert.True(cut.InTime(page.Order.Promised));
        Assert.Contains("4 pieces from each sheet", cut.How, StringComparison.Ordinal);
        Assert.Contains("1 sheet of A2 stay", cut.Restock, StringComparison.Ordinal);

        var bought = Assert.Single(print.Ways, w => w.Kind is WayKind.OtherSupplier);
        Assert.Equal(46m, bought.Cost); // a pack of 50 for 40, and 6 of carriage
        Assert.False(bought.InTime(page.Order.Promised));
        Assert.Contains("50 sheets that come 34 go on the shelf", bought.Restock, StringComparison.Ordinal);
        var told = Assert.Single(print.Ways, w => w.Kind is WayKind.TellClient);
        Assert.Equal(bought.Ready, told.Ready);
    }

    [Fact]
    public async Task What_does_not_suffice_is_said_not_to_and_the_client_is_told()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 200, 280, 16));
        await press.ChangeAsync(db =>
        {
            db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A4, PackSize = 50 });
            return Task.CompletedTask;
        });
        await press.StockAsync(FreshRoom.A2, 3);
        var ways = Assert.Single((await Ways(press).RunAsync(PressRoom.Order, Cancel))!.Prints).Ways;
        Assert.Equal([WayKind.TellClient, WayKind.CutDown], ways.Select(w => w.Kind));
        Assert.Equal("Only 3 of A2 are here.", ways[1].WhyNot);
        Assert.Null(ways[0].Ready);
        Assert.Contains("no day can be said", ways[0].How, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_order_with_paper_enough_has_no_need_of_a_way_out()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 500, 2));
        await press.StockAsync(FreshRoom.A2, 2);
        Assert.False(await Ways(press).IsShortAsync(PressRoom.Order, Cancel));
        Assert.Empty((await Ways(press).RunAsync(PressRoom.Order, Cancel))!.Prints);
        Assert.Null(await Ways(press).RunAsync(9_999, Cancel));
        Assert.False(await Ways(press).IsShortAsync(9_999, Cancel));
    }

    private static FindWaysOut Ways(PressRoom press)
    {
        var files = new FileShelf(Path.Combine(Path.GetTempPath(), "goodsheet-no-such-files"));
        return new(press.Store, files, new(files), press.Clock);
    }
}
