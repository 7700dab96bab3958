using Goodsheet.App.Money;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Money;

/// <summary>The money that lies on the shelf, from the ledger and the prices as they stand. Figures by hand.</summary>
public sealed class StockMoneyTest(PostgresServer postgres)
{
    private static readonly PersonName Mira = new("Mira");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Cut_pieces_carry_what_was_cut_up_and_nothing_of_the_value_is_lost()
    {
        await using var press = await OpenAsync();
        var page = await new ShowStockMoney(press.Store, press.Clock).RunAsync(Cancel);
        // 25 sheets of A2 for 100: 4 each. Two were cut into eight A4 that cost 1 each; one A4 is wasted.
        Assert.Equal((99m, 99m), (page.Fifo, page.Average));
        Assert.Equal([(FreshRoom.A2, 23L, 92m), (FreshRoom.A4, 7L, 7m)], page.Items.Select(i => (i.Item.Format, i.Value.OnHand, i.Value.Fifo!.Value)));
        var waste = Assert.Single(page.Waste);
        Assert.Equal((WasteCause.Curl, 1m), (waste.Cause, waste.Cost));
        Assert.Equal(0.210 * 0.297, waste.SquareMetres, 9);
        Assert.Empty(page.Dead);
        press.Clock.Advance(TimeSpan.FromDays(ShowStockMoney.DeadAfterDays));
        Assert.Empty((await new ShowStockMoney(press.Store, press.Clock).RunAsync(Cancel)).Dead);
        press.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal(2, (await new ShowStockMoney(press.Store, press.Clock).RunAsync(Cancel)).Dead.Count());
    }

    [Fact]
    public async Task A_months_use_adds_up_and_the_next_month_opens_with_what_this_one_closed()
    {
        await using var press = await OpenAsync();
        var show = new ShowStockMoney(press.Store, press.Clock);
        var march = (await show.UsageAsync(new(2026, 3, 15), Cancel)).Split("\r\n");
        Assert.StartsWith("month,paper,format,unit,opening,received,good,tests,wasted,cut_up,", march[0], StringComparison.Ordinal);
        Assert.Equal("2026-03,\"Test Cotton 300\",\"A2\",sheets,0,25,0,0,0,2,0,0,0,23,8.00", march[1]);
        Assert.Equal("2026-03,\"Test Cotton 300\",\"A4\",sheets,0,8,0,0,1,0,0,0,0,7,1.00", march[2]);
        Assert.Equal("2026-04,\"Test Cotton 300\",\"A2\",sheets,23,0,0,0,0,0,0,0,0,23,0.00", (await show.UsageAsync(new(2026, 4, 1), Cancel)).Split("\r\n")[1]);
        Assert.Single((await show.UsageAsync(new(2026, 2, 1), Cancel)).Trim().Split("\r\n")); // the heading alone
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task An_empty_room_has_no_money_in_stock(RoomStore.Kind kind)
    {
        await using var room = await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();
        var page = await new ShowStockMoney(room.Store, TimeProvider.System).RunAsync(Cancel);
        Assert.Equal((0m, 0, 0), (page.Fifo, page.Items.Count, page.Months.Count));
    }

    private static async Task<PressRoom> OpenAsync()
    {
        var press = await PressRoom.OpenAsync();
        var lot = await press.StockAsync(FreshRoom.A2, 25);
        await press.ChangeAsync(async db =>
        {
            db.Suppliers.Add(new() { Code = new("invented"), Name = "Invented Papers", TimeZone = "Europe/London" });
            db.Prices.Add(new() { Supplier = new("invented"), Paper = FreshRoom.Cotton, Format = FreshRoom.A2, From = new(2026, 1, 1), PackSize = 25, Price = 100 });
            (await db.Items.FindAsync([FreshRoom.Cotton, FreshRoom.A2], Cancel))!.Supplier = new("invented");
        });
        var cut = (await new TrimPaper(press.Store, press.Clock).RunAsync(new(CommandId.New(), Mira, lot, 2, FreshRoom.A4), Cancel)).Value!;
        Assert.Equal(8, cut.Pieces);
        await new SpoilPaper(press.Store, press.Clock).RunAsync(new(CommandId.New(), Mira, cut.Lot, 1, WasteCause.Curl), Cancel);
        return press;
    }
}
