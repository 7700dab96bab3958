using Goodsheet.App.Layout;
using Goodsheet.App.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Demo;

/// <summary>How the demonstration lays its prints, a run of several on a roll, and work that may go along with any run of its paper. All invented.</summary>
internal sealed class DemoLayout(DemoHand hand, DemoDesk desk)
{
    /// <summary>Edges that nothing is printed on, a knife of its own, and a canvas whose weave has a direction.</summary>
    public async Task SayAsync(CancellationToken cancel)
    {
        var page = await hand.The<SetLayoutSettings>().ShowAsync(cancel);
        DemoHand.Must(await hand.The<SetLayoutSettings>().RunAsync(
            new(Mm(4), 2, Mm(700), Mm(160),
                [.. page.Paths.Select(p => p.Path with { Margins = p.Path.Feed is Feed.Roll ? new(Mm(3), Mm(3), Mm(3), Mm(3)) : new(Mm(3.4m), Mm(3.4m), Mm(3), Mm(6)) })],
                [DemoCast.CodeOf("Figment Canvas Shine 400")]), cancel));
    }

    /// <summary>An order of many small prints for the roll, and two of prints with time. Gives the first, which is to be laid.</summary>
    public async Task<int> OrdersAsync(DemoItem roll, DateTimeOffset promised, DateTimeOffset some, CancellationToken cancel)
    {
        var many = await desk.OrderAsync(roll, (300, 200, 10), promised, 5, 2, cancel);
        var cards = await desk.OrderAsync(roll, (150, 100, 5), some, 8, 1, cancel);
        var wedge = await desk.OrderAsync(roll, (90, 60, 5), some, 4, 4, cancel);
        foreach (var order in (int[])[cards, wedge])
        {
            DemoHand.Must(await hand.The<SayHowLaid>().RunAsync(new(new(DemoCast.Keeper), order, 1, MayTurn: true, GoesAlong: true), cancel));
        }

        foreach (var order in (int[])[many, cards, wedge])
        {
            await hand.Work<PreparePrint>().DoNowAsync($"print {order}/1", cancel);
        }

        return many;
    }

    private static Length Mm(decimal mm) => Length.FromMillimetres(mm);
}
