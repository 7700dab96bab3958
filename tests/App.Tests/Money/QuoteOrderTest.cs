using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Money;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Money;

/// <summary>An order of three prints in a room with invented rates.</summary>
public sealed class QuoteOrderTest
{
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_order_is_quoted_with_its_paper_and_trim_and_what_is_left_over_is_told_when_it_is_done()
    {
        await using var room = await WithOrderAsync();
        var quote = new QuoteOrder(room.Store, clock);
        Assert.IsType<NoRates>((await quote.ShowAsync(2001, Cancel)).Refusal);
        Assert.True((await SetAsync(room)).Granted);
        Assert.IsType<NoPriceOfPaper>((await quote.ShowAsync(2001, Cancel)).Refusal);
        Assert.True((await new SetPaperPrice(room.Store, clock).RunAsync(new(FreshRoom.Cotton, null, 10), Cancel)).Granted);

        var done = (await quote.ShowAsync(2001, Cancel)).Value!;
        // Three of 380 x 253 need two sheets of A2 (420 x 594): .49896 m2 at 10.
        Assert.Equal(4.9896m, done.Sheets.Single().Costs.Lines[0].Amount);
        Assert.Equal(done.Quote.Net, done.Quote.Lines.Sum(l => l.Net));
        Assert.Contains("To pay", done.Text, StringComparison.Ordinal);

        var wish = CommandId.New();
        await quote.RunAsync(new(wish, new("Mira"), 2001), Cancel);
        await quote.RunAsync(new(wish, new("Mira"), 2001), Cancel);
        await using (var db = room.Store.Open())
        {
            Assert.Equal(1, await db.OrderQuotes.CountAsync(Cancel));
            (await db.Orders.SingleAsync(Cancel)).State = OrderState.Done;
            (await db.PrintLines.SingleAsync(Cancel)).Good = 3;
            (await db.PrintLines.SingleAsync(Cancel)).Wasted = 3;
            await db.SaveChangesAsync(Cancel);
        }

        var page = await new ShowMoney(room.Store, clock).RunAsync(Cancel);
        Assert.Equal(2 * decimal.Round(done.Cost, 2), page.Orders.Single().Cost);
        Assert.StartsWith("order,client", await new ShowMoney(room.Store, clock).CsvAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_clients_own_price_goes_before_the_reckoned_one()
    {
        await using var room = await WithOrderAsync();
        await SetAsync(room);
        await new SetPaperPrice(room.Store, clock).RunAsync(new(FreshRoom.Cotton, null, 10), Cancel);
        await new SetPaperPrice(room.Store, clock).RunAsync(new(FreshRoom.Cotton, 1, 100), Cancel);
        var line = (await new QuoteOrder(room.Store, clock).ShowAsync(2001, Cancel)).Value!.Quote.Lines[0];
        Assert.Equal((10m, 30m), (line.Each, line.Net)); // .38 x .253 m2 at 100 is 9.614, up to the next half
    }

    [Fact]
    public async Task Rates_that_cannot_be_are_refused()
    {
        await using var room = await FreshRoom.InFileAsync();
        Assert.IsType<SetRates.CannotBe>((await SetAsync(room, margin: 1)).Refusal);
        Assert.IsType<Room.Money.QuantitySteps.NotSteps>((await SetAsync(room, steps: "ten")).Refusal);
    }

    private Task<Outcome<SetRates.Done>> SetAsync(FreshRoom room, decimal margin = 0.4m, string steps = "") => new SetRates(room.Store, clock).RunAsync(
        new(CommandId.New(), new("Mira"), "EUR", 0.5m, 12, 0.1m, 0.2m, 0.5m, 4, 0.05m, 0.2m, margin, 0, 0.5m, "VAT", 0.2m, steps), Cancel);

    private async Task<FreshRoom> WithOrderAsync()
    {
        var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        await using var db = room.Store.Open();
        db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A2, PackSize = 25 });
        db.Clients.Add(new() { Number = 1, Name = "An invented gallery" });
        db.Orders.Add(new() { Number = 2001, Client = 1, TakenAt = clock.GetUtcNow(), TakenBy = new("Mira"), Promised = clock.GetUtcNow().AddDays(2), State = OrderState.Approved });
        db.PrintLines.Add(new()
        {
            Order = 2001,
            Line = 1,
            Title = "Low Water",
            ImageHash = "0",
            ImageName = "a.tif",
            PixelsWide = 100,
            PixelsHigh = 100,
            Width = Length.FromMillimetres(380),
            Height = Length.FromMillimetres(253),
            Paper = FreshRoom.Cotton,
            Copies = 3,
        });
        await db.SaveChangesAsync(Cancel);
        return room;
    }
}
