using Goodsheet.App.Editions;
using Goodsheet.App.Money;
using Goodsheet.Room.Editions;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Demo;

/// <summary>The demonstration's books: rates in a currency that does not exist, and one edition. Every figure is made up.</summary>
internal sealed class DemoBooks(DemoHand hand)
{
    private const string Currency = "fancies"; // no money of any country

    public async Task WriteAsync(DateOnly today, CancellationToken cancel)
    {
        DemoHand.Must(await hand.The<SetRates>().RunAsync(
            new(hand.Command(), new(DemoCast.Keeper), Currency, 0.9m, 14m, 0.1m, 0.3m, 0.8m, 4m, 0.05m, 0.2m, 0.4m, 15m, 0.5m, "Made-up tax", 0.1m, "10: 5, 25: 10"), cancel));
        foreach (var paper in DemoCast.Papers)
        {
            var made = 6m + (paper.Grammage / 25m);
            DemoHand.Must(await hand.The<SetPaperPrice>().RunAsync(new(DemoCast.CodeOf(paper.Name), null, Math.Round(made, 1)), cancel));
        }

        var edition = DemoHand.Must(await hand.The<OpenEdition>().RunAsync(
            new(hand.Command(), new(DemoCast.Keeper), "Hills that are not there", "A. Nobody", today.Year, 25, 2, 1, 0, true), cancel)).Edition;
        foreach (var (series, days) in ((Series, int)[])[(Series.ArtistsProof, 40), (Series.Numbered, 38), (Series.Numbered, 21), (Series.Numbered, 3)])
        {
            DemoHand.Must(await hand.The<IssuePrint>().RunAsync(
                new(hand.Command(), new(DemoCast.Keeper), edition, series, null, Mm(300), Mm(200), Mm(420), Mm(297), DemoCast.CodeOf("Unicorn Smooth 310"), "pigment", today.AddDays(-days), null), cancel));
        }
    }

    private static Length Mm(int mm) => Length.FromMillimetres(mm);
}
