using Goodsheet.App.Shelf;

namespace Goodsheet.App.Demo;

/// <summary>Keeps the demonstration room in paper: what is under way, and what comes when.</summary>
internal sealed class DemoSupply(DemoHand hand)
{
    private readonly List<(DateOnly Comes, DemoItem Item, long Quantity)> underWay = [];

    /// <summary>What lay on the shelf when the story begins.</summary>
    public async Task OpenAsync(DateOnly day, CancellationToken cancel)
    {
        foreach (var item in DemoCast.Items.Where(i => i.Supplier is not null))
        {
            await PutAwayAsync(item, item.IsRoll ? item.Pack : 2 * item.Pack, day.AddDays(540 + hand.Random.Next(200)), cancel);
        }
    }

    public async Task MorningAsync(DateOnly day, IReadOnlyDictionary<DemoItem, long> left, CancellationToken cancel)
    {
        foreach (var come in underWay.Where(u => u.Comes <= day).ToList())
        {
            underWay.Remove(come);
            await PutAwayAsync(come.Item, come.Quantity, day.AddDays(600 + hand.Random.Next(200)), cancel);
        }

        foreach (var item in DemoCast.Items.Where(i => i.Supplier is not null && i.Enough > 0))
        {
            if (left.GetValueOrDefault(item) + underWay.Where(u => u.Item == item).Sum(u => u.Quantity) < item.Enough)
            {
                underWay.Add((day.AddDays(3 + hand.Random.Next(3)), item, item.Pack));
            }
        }
    }

    private async Task PutAwayAsync(DemoItem item, long quantity, DateOnly bestBefore, CancellationToken cancel) =>
        DemoHand.Must(await hand.The<PutAway>().RunAsync(
            new(hand.Command(), hand.Anybody(), item.Code.Paper, item.Code.Format, quantity, bestBefore, item.Place), cancel));
}
