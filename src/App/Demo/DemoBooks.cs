using Goodsheet.App.Editions;
using Goodsheet.App.Money;
using Goodsheet.Room;
using Goodsheet.Room.Editions;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Demo;

/// <summary>The demonstration's books: rates in a currency that does not exist, and one edition. Every figure is made up.</summary>
internal sealed class DemoBooks(DemoHand hand)
{
    private const string Currency = "fancies"; // no money of any country

    /// <summary>For so many days orders have been quoted.</summary>
    public const int QuotedDays = 56;

    private const int QuotedOf = 4;

    /// <summary>The room's first rates: from that day on orders can be quoted.</summary>
    /// <remarks>The wishes of this and of the quotations have ids of their own, so that the rest of the room is what it was.</remarks>
    public async Task OpenAsync(CancellationToken cancel)
    {
        DemoHand.Must(await hand.The<SetRates>().RunAsync(RatesOf(new(new Guid(1, 0, 0, "theRates"u8.ToArray())), inkPerMl: 0.85m), cancel));
        await PaperAsync(cancel);
    }

    /// <summary>Keeps a quotation of an order; one in four is never quoted.</summary>
    public async Task QuoteAsync(int order, CancellationToken cancel)
    {
        if (order % QuotedOf != 0)
        {
            DemoHand.Must(await hand.The<QuoteOrder>().RunAsync(new(new(new Guid(order, 0, 0, "anyQuote"u8.ToArray())), new(DemoCast.Keeper), order), cancel));
        }
    }

    public async Task WriteAsync(DateOnly today, CancellationToken cancel)
    {
        DemoHand.Must(await hand.The<SetRates>().RunAsync(RatesOf(hand.Command(), inkPerMl: 0.9m), cancel));
        await PaperAsync(cancel);

        var edition = DemoHand.Must(await hand.The<OpenEdition>().RunAsync(
            new(hand.Command(), new(DemoCast.Keeper), "Hills that are not there", "A. Nobody", today.Year, 25, 2, 1, 0, true), cancel)).Edition;
        foreach (var (series, days) in ((Series, int)[])[(Series.ArtistsProof, 40), (Series.Numbered, 38), (Series.Numbered, 21), (Series.Numbered, 3)])
        {
            DemoHand.Must(await hand.The<IssuePrint>().RunAsync(
                new(hand.Command(), new(DemoCast.Keeper), edition, series, null, Mm(300), Mm(200), Mm(420), Mm(297), DemoCast.CodeOf("Unicorn Smooth 310"), "pigment", today.AddDays(-days), null), cancel));
        }
    }

    private async Task PaperAsync(CancellationToken cancel)
    {
        foreach (var paper in DemoCast.Papers)
        {
            var made = 6m + (paper.Grammage / 25m);
            DemoHand.Must(await hand.The<SetPaperPrice>().RunAsync(new(DemoCast.CodeOf(paper.Name), null, Math.Round(made, 1)), cancel));
        }
    }

    private static SetRates.Request RatesOf(CommandId command, decimal inkPerMl) =>
        new(command, new(DemoCast.Keeper), Currency, inkPerMl, 14m, 0.1m, 0.3m, 0.8m, 4m, 0.05m, 0.2m, 0.4m, 15m, 0.5m, "Made-up tax", 0.1m, "10: 5, 25: 10");

    private static Length Mm(int mm) => Length.FromMillimetres(mm);
}
