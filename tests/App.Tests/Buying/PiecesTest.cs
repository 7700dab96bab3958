using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Buying;
using Goodsheet.App.Documents;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Buying;

/// <summary>Ink and the rest that is used up beside paper, from a low shelf to an order, its delivery and the lots, on both stores.</summary>
public sealed class PiecesTest(PostgresServer postgres)
{
    private static readonly PersonName Mira = new("Mira");
    private static readonly SupplierCode Corvane = new("corvane-paper");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 5, 9, 0, 0, TimeSpan.Zero)); // a Thursday

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task Ink_at_its_level_is_proposed_sent_and_put_away_as_it_comes(RoomStore.Kind kind)
    {
        await using var room = await StockedAsync(kind);
        var ink = await KeepAsync(room, "Heron cyan", ConsumableKind.Ink, low: 1, price: 62.5m);
        await MoveAsync(room, ink, MoveConsumable.Doing.PutAway, 2);
        var blades = await KeepAsync(room, "Blades", ConsumableKind.Blade, low: 2, price: null);
        await MoveAsync(room, blades, MoveConsumable.Doing.PutAway, 9);
        Assert.Empty((await ShownAsync(room)).Pieces);
        await MoveAsync(room, ink, MoveConsumable.Doing.Take, 1);

        var wanted = Assert.Single((await ShownAsync(room)).Pieces);
        Assert.Equal((ink, "1 left; more is ordered at 1."), (wanted.Consumable, wanted.Why));
        var order = (await new ProposeOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, Corvane), Cancel)).Value!.Order;
        Assert.True((await new ChangeOrder(room.Store, clock).RunAsync(new(order, new Dictionary<int, int> { [1] = 3 }, AddPieces: blades), Cancel)).Granted);
        Assert.IsType<ChangeOrder.PiecesAreOnIt>((await new ChangeOrder(room.Store, clock).RunAsync(new(order, new Dictionary<int, int>(), AddPieces: blades), Cancel)).Refusal);
        var page = await PageAsync(room, order);
        Assert.Equal([(1, 3, 62.5m), (2, 1, (decimal?)null)], page.Pieces.Select(p => (p.Of.Line, p.Of.Pieces, p.Of.Price)));
        Assert.Null(page.Sum); // the blades have no price
        await new ChangeOrder(room.Store, clock).RunAsync(new(order, new Dictionary<int, int> { [2] = 0 }), Cancel);
        Assert.Equal(187.5m, (await PageAsync(room, order)).Sum);

        await new SendOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, order), Cancel);
        Assert.Empty((await ShownAsync(room)).Pieces); // what is on the way counts
        var take = new TakeDelivery.Request(CommandId.New(), Mira, order, "n 1", [new(1, 1, MakersNumber: "A"), new(1, 1, BestBefore: new(2027, 1, 1))]);
        Assert.Equal(PurchaseState.PartDelivered, (await new TakeDelivery(room.Store, clock).RunAsync(take, Cancel)).Value!.State);
        Assert.Equal(PurchaseState.PartDelivered, (await new TakeDelivery(room.Store, clock).RunAsync(take, Cancel)).Value!.State); // asked again alike: nothing twice
        Assert.IsType<TakeDelivery.NoteCameBefore>((await new TakeDelivery(room.Store, clock).RunAsync(take with { Command = CommandId.New() }, Cancel)).Refusal);
        Assert.Equal(PurchaseState.Closed, (await TakeAsync(room, order, "N 2", new TakeDelivery.Box(1, 1, Damaged: 1))).Value!.State);

        await using var db = room.Store.Open();
        Assert.Equal(4, (await new ShowConsumables(room.Store, clock).OneAsync(ink, Cancel))!.Stock.Left);
        Assert.Equal([1, 2, 3, 4], await db.ConsumableLots.Where(l => l.Consumable == ink).OrderBy(l => l.Number).Select(l => l.Number).ToListAsync(Cancel));
        Assert.Equal(1, (await PageAsync(room, order)).Pieces[0].Of.CameDamaged);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(10_001)]
    [InlineData(1_000_000_000_000)]
    public async Task Pieces_that_cannot_be_are_refused_whole(long quantity)
    {
        await using var room = await StockedAsync(RoomStore.Kind.Sqlite);
        var ink = await KeepAsync(room, "Heron cyan", ConsumableKind.Ink, low: 1, price: 62.5m);
        var order = (await new ProposeOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, Corvane), Cancel)).Value!.Order;
        await new SendOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, order), Cancel);
        Assert.IsType<NotAQuantity>((await TakeAsync(room, order, "N1", new(1, 1), new(1, quantity))).Refusal);
        Assert.Empty((await new ShowConsumables(room.Store, clock).OneAsync(ink, Cancel))!.Stock.Lots);
    }

    [Fact]
    public async Task An_order_of_ink_is_given_as_CSV_mail_PDF_and_calendar()
    {
        await using var room = await StockedAsync(RoomStore.Kind.Sqlite);
        await KeepAsync(room, "Heron cyan", ConsumableKind.Ink, low: 0, price: 62.5m);
        Assert.Contains("Heron cyan: 1", (await new BuyingCalendar(room.Store, clock).RunAsync(Cancel)).Replace("\r\n ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        var order = (await new ProposeOrder(room.Store, clock).RunAsync(new(CommandId.New(), Mira, Corvane), Cancel)).Value!.Order;
        var page = await PageAsync(room, order);
        Assert.Equal($"{order},1,heron-cyan,Heron cyan,,1,1,pieces,62.5,62.5", PurchaseText.Csv(page).Split("\r\n")[1]);
        Assert.Contains("1 × Heron cyan", PurchaseText.Mail(page), StringComparison.Ordinal);
        var pdf = PurchasePages.Draw(page, clock.LocalTimeZone);
        Assert.Equal(("%PDF", 1, $"order-{order}.pdf"), (Encoding.ASCII.GetString(pdf.Pdf, 0, 4), pdf.Pages, pdf.FileName));
        Assert.Null(await new ShowPurchase(room.Store, clock).RunAsync(999, Cancel));
    }

    private async Task<ShowBuying.SupplierLine> ShownAsync(FreshRoom room) => Assert.Single((await new ShowBuying(room.Store, clock).RunAsync(Cancel)).Suppliers);

    private async Task<ShowPurchase.Page> PageAsync(FreshRoom room, int order) => (await new ShowPurchase(room.Store, clock).RunAsync(order, Cancel))!;

    private Task<Outcome<TakeDelivery.Done>> TakeAsync(FreshRoom room, int order, string note, params TakeDelivery.Box[] boxes) =>
        new TakeDelivery(room.Store, clock).RunAsync(new(CommandId.New(), Mira, order, note, boxes), Cancel);

    private static async Task<ConsumableCode> KeepAsync(FreshRoom room, string name, ConsumableKind kind, long low, decimal? price) =>
        (await new KeepConsumable(room.Store).RunAsync(
            new(null, name, kind, kind is ConsumableKind.Ink ? FreshRoom.Heron : null, kind is ConsumableKind.Ink ? name : "", 80, low, "", Corvane, price), Cancel)).Value!.Consumable;

    private Task<Outcome<MoveConsumable.Done>> MoveAsync(FreshRoom room, ConsumableCode code, MoveConsumable.Doing what, long quantity) =>
        new MoveConsumable(room.Store, clock).RunAsync(new(CommandId.New(), Mira, code, what, quantity), Cancel);

    private async Task<FreshRoom> StockedAsync(RoomStore.Kind kind)
    {
        var room = await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();
        var terms = new SupplierTerms("Corvane Paper", "Europe/London", WorkingWeek.MondayToFriday, WorkingWeek.MondayToFriday, "GB", 0, 200, 9, "orders@corvane.example", "",
            [new("next day", new(14, 30), 1)]);
        Assert.True((await new AddSupplier(room.Store).RunAsync(terms, Cancel)).Granted);
        return room;
    }
}
