using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Buying;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.App.Tests.Buying;

/// <summary>From a low shelf to an order, its delivery and the lots, on both stores.</summary>
public sealed class BuyingTest(PostgresServer postgres)
{
    private static readonly PersonName Mira = new("Mira");
    private static readonly SupplierCode Corvane = new("corvane-paper");
    private static readonly ItemCode CottonA2 = new(FreshRoom.Cotton, FreshRoom.A2);
    private readonly FakeTimeProvider clock = new(new(2026, 3, 5, 9, 0, 0, TimeSpan.Zero)); // a Thursday

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task An_item_under_its_reserve_is_proposed_sent_and_taken_in_parts(RoomStore.Kind kind)
    {
        await using var room = await StockedAsync(kind);
        var order = (await new ProposeOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, Corvane), Cancel)).Value!;
        var again = (await new ProposeOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, Corvane), Cancel)).Value!;
        Assert.Equal((order.Order, false), (again.Order, again.IsNew));

        var page = (await new ShowPurchase(room.Store, clock).RunAsync(order.Order, Cancel))!;
        var line = Assert.Single(page.Lines);
        Assert.Equal((1, 25L, 48m), (line.Of.Packs, line.Of.PackSize, line.Of.Price));
        Assert.Contains("left", line.Of.Reason, StringComparison.Ordinal);

        await new ChangeOrder(room.Store, clock).RunAsync(new(order.Order, new Dictionary<int, int> { [1] = 4 }), Cancel);
        var sent = await new SendOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, order.Order), Cancel);
        Assert.Equal(new(2026, 3, 6), sent.Value!.PromisedOn);
        Assert.IsType<OrderWasSent>((await new ChangeOrder(room.Store, clock).RunAsync(new(order.Order, new Dictionary<int, int>()), Cancel)).Refusal);

        clock.Advance(TimeSpan.FromDays(4)); // Monday: one working day late
        var part = await TakeAsync(room, order.Order, "c 5521", new TakeDelivery.Box(1, 50, Damaged: 25));
        Assert.Equal(PurchaseState.PartDelivered, part.Value!.State);
        Assert.IsType<TakeDelivery.NoteCameBefore>((await TakeAsync(room, order.Order, " C  5521", new TakeDelivery.Box(1, 50))).Refusal);
        Assert.Equal(PurchaseState.Closed, (await TakeAsync(room, order.Order, "C 5522", new(1, 25), new(1, 25, MakersNumber: "B2"))).Value!.State);
        Assert.IsType<NothingIsOnTheWay>((await TakeAsync(room, order.Order, "C 5523", new TakeDelivery.Box(1, 1))).Refusal);

        await using var db = room.Store.Open();
        Assert.Equal(103, await ShelfLines.Of(db).SumAsync(l => l.OnShelf, Cancel));
        var delivery = await db.Deliveries.SingleAsync(d => d.Note == "C 5521", Cancel);
        Assert.Equal((1, false), (delivery.DaysLate, delivery.Complete));
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task The_same_note_taken_in_twice_at_once_is_taken_in_once(RoomStore.Kind kind)
    {
        await using var room = await StockedAsync(kind);
        var order = (await new ProposeOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, Corvane), Cancel)).Value!.Order;
        await new SendOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, order), Cancel);
        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => TakeAsync(room, order, "N1", new TakeDelivery.Box(1, 10)))));
        Assert.Single(answers, a => a.Granted);
        Assert.All(answers.Where(a => !a.Granted), a => Assert.IsType<TakeDelivery.NoteCameBefore>(a.Refusal));
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(1_000_000_000_000)]
    public async Task A_delivery_that_cannot_be_is_refused_whole(long quantity)
    {
        await using var room = await StockedAsync(RoomStore.Kind.Sqlite);
        var order = (await new ProposeOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, Corvane), Cancel)).Value!.Order;
        await new SendOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, order), Cancel);
        Assert.IsType<NotAQuantity>((await TakeAsync(room, order, "N1", new(1, 10), new(1, quantity))).Refusal);
        Assert.IsType<TakeDelivery.NothingCame>((await TakeAsync(room, order, "N1", new TakeDelivery.Box(1, 0))).Refusal);
        await using var db = room.Store.Open();
        Assert.Single(await db.Lots.ToListAsync(Cancel));
    }

    [Fact]
    public async Task A_price_list_with_unknown_and_doubled_lines_is_reported_line_by_line_and_nothing_is_taken_in()
    {
        await using var room = await StockedAsync(RoomStore.Kind.Sqlite);
        var bad = $"{ImportPrices.Heading}\ntest-cotton,A2,2026-04-01,1,25,50\nno-paper,A2,2026-04-01,1,25,50\ntest-cotton,A2,2026-04-01,1,25,51\ntest-cotton,A4,2026-04-01,1,\"12,5\",9\ntest-cotton,A4,2026-04-01,1,50,-9\n";
        var report = (await new ImportPrices(room.Store).RunAsync(new(Corvane, bad, false), Cancel)).Value!;
        Assert.Equal([3, 4, 5, 6], report.Lines.Where(l => l.Wrong).Select(l => l.Line));
        Assert.False(report.TakenIn);
        var good = $"{ImportPrices.Heading}\r\ntest-cotton,A2,2026-04-01,1,25,50\r\ntest-cotton,A4,2026-04-01,5,50,19.5\r\n";
        Assert.False((await new ImportPrices(room.Store).RunAsync(new(Corvane, good, true), Cancel)).Value!.TakenIn);
        await using (var db = room.Store.Open())
        {
            Assert.Single(await db.Prices.ToListAsync(Cancel));
        }

        Assert.True((await new ImportPrices(room.Store).RunAsync(new(Corvane, good, false), Cancel)).Value!.TakenIn);
        await using var after = room.Store.Open();
        Assert.Equal(3, await after.Prices.CountAsync(Cancel));
    }

    [Fact]
    public async Task An_order_is_given_as_CSV_as_mail_and_as_a_calendar()
    {
        await using var room = await StockedAsync(RoomStore.Kind.Sqlite);
        var before = await new BuyingCalendar(room.Store, clock).RunAsync(Cancel);
        Assert.Contains("DTEND:20260305T143000Z", before, StringComparison.Ordinal);
        Assert.All(before.Split("\r\n"), l => Assert.True(System.Text.Encoding.UTF8.GetByteCount(l) <= 75));
        var order = (await new ProposeOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, Corvane), Cancel)).Value!.Order;
        await new SendOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, order), Cancel);
        var page = (await new ShowPurchase(room.Store, clock).RunAsync(order, Cancel))!;
        Assert.Equal($"{order},1,test-cotton,Test Cotton 300,A2,1,25,sheets,48,48", PurchaseText.Csv(page).Split("\r\n")[1]);
        Assert.Contains("1 × Test Cotton 300, A2, packs of 25 sheets", PurchaseText.Mail(page), StringComparison.Ordinal);
        Assert.Contains("DTSTART;VALUE=DATE:20260306", await new BuyingCalendar(room.Store, clock).RunAsync(Cancel), StringComparison.Ordinal);
    }

    /// <summary>gov.uk bank holidays: Christmas Day 2027 falls on a Saturday and is kept on Monday 27 December, Boxing Day on the 28th.</summary>
    [Fact]
    public void A_holiday_on_a_weekend_closes_the_day_kept_instead()
    {
        var days = PublicHolidays.Of("GB", 2027, 2027).ToList();
        Assert.Contains(new DateOnly(2027, 12, 27), days);
        Assert.Contains(new DateOnly(2027, 12, 28), days);
        Assert.Contains(new DateOnly(2027, 3, 17), PublicHolidays.Of("IE", 2027, 2027));
        Assert.All(PublicHolidays.Countries, c => Assert.NotEmpty(PublicHolidays.Of(c.Code, 2026, 2030)));
    }

    private Task<Outcome<TakeDelivery.Done>> TakeAsync(FreshRoom room, int order, string note, params TakeDelivery.Box[] boxes) =>
        new TakeDelivery(room.Store, clock).RunAsync(new(CommandId.New(), Mira, order, note, boxes), Cancel);

    /// <summary>Three sheets of cotton A2, a reserve of five, and a supplier that sends until 14:30 for the next day.</summary>
    private async Task<FreshRoom> StockedAsync(RoomStore.Kind kind)
    {
        var room = await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();
        await new PutAway(room.Store, clock).RunAsync(new(CommandId.New(), Mira, CottonA2.Paper, CottonA2.Format, 3, null), Cancel);
        var terms = new SupplierTerms("Corvane Paper", "Europe/London", WorkingWeek.MondayToFriday, WorkingWeek.MondayToFriday, "GB", 0, 200, 9, "orders@corvane.example", "",
            [new("next day", new(14, 30), 1)]);
        Assert.True((await new AddSupplier(room.Store).RunAsync(terms, Cancel)).Granted);
        await new SetPrice(room.Store).RunAsync(new(Corvane, CottonA2, new(2026, 1, 1), 1, 25, 48), Cancel);
        await new ChangeItem(room.Store).RunAsync(new(CottonA2, 5, 25, "drawer 2", Corvane), Cancel);
        return room;
    }
}
