using Goodsheet.App.Orders;
using Goodsheet.App.Runs;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Demo;

/// <summary>Takes orders in the demonstration room and prints them.</summary>
internal sealed class DemoDesk(DemoHand hand, IReadOnlyList<DemoPictures.Picture> pictures)
{
    /// <summary>Of the pictures, those that any client would have printed.</summary>
    private const int Saleable = 4;

    private static readonly WasteCause[] Causes =
        [WasteCause.Curl, WasteCause.HeadStrike, WasteCause.Dust, WasteCause.Dust, WasteCause.Misfeed, WasteCause.Colour, WasteCause.Nozzle, WasteCause.Handling];

    /// <summary>An order that is not printed yet.</summary>
    public sealed record Waiting(int Order, DemoItem Item, DateOnly From);

    /// <param name="item">Paper and format: the print is as large as suits it.</param>
    /// <param name="promised">When it is promised.</param>
    /// <param name="copies">How many.</param>
    /// <param name="picture">Which picture; none for one of those that sell.</param>
    /// <param name="cancel">Stops it.</param>
    public async Task<int> OrderAsync(DemoItem item, DateTimeOffset promised, int copies, int? picture, CancellationToken cancel)
    {
        var what = picture ?? hand.Random.Next(Saleable);
        return await OrderAsync(item, SizeOn(item.Format), promised, copies, what, cancel);
    }

    /// <param name="item">On which paper.</param>
    /// <param name="size">In mm, with the border on each side.</param>
    /// <param name="promised">When it is promised.</param>
    /// <param name="copies">How many.</param>
    /// <param name="picture">Which picture.</param>
    /// <param name="cancel">Stops it.</param>
    public async Task<int> OrderAsync(
        DemoItem item, (decimal Width, decimal Height, decimal Border) size, DateTimeOffset promised, int copies, int picture, CancellationToken cancel)
    {
        var what = pictures[picture];
        var done = DemoHand.Must(await hand.The<TakeOrder>().RunAsync(
            new(hand.Command(), hand.Anybody(), DemoCast.Clients[hand.Random.Next(DemoCast.Clients.Count)], promised, what.Hash, what.File, what.Title,
                Length.FromMillimetres(size.Width), Length.FromMillimetres(size.Height), Length.FromMillimetres(size.Border), item.Code.Paper, copies,
                Length.FromMillimetres(size.Width)), cancel));
        return done.Order;
    }

    public DemoItem AnItem()
    {
        var at = hand.Random.Next(DemoCast.Items.Sum(i => i.Share));
        return DemoCast.Items.First(i => (at -= i.Share) < 0);
    }

    /// <summary>Prints a past order from whatever lot should go first; false when there is not enough paper.</summary>
    public async Task<bool> PrintAsync(Waiting order, IReadOnlyList<LotCode> lots, CancellationToken cancel)
    {
        await SetPreparedAsync(order.Order, prepared: true, cancel);
        foreach (var lot in lots)
        {
            while (await hand.The<PlanRun>().RunAsync(new(hand.Command(), hand.Anybody(), order.Order, lot), cancel) is { Granted: true } run)
            {
                if (await RunAsync(run.Value.Run, cancel) == 0)
                {
                    await SetPreparedAsync(order.Order, prepared: false, cancel);
                    return true;
                }
            }
        }

        return false;
    }

    // Gives how many prints have to be made again.
    private async Task<int> RunAsync(int run, CancellationToken cancel)
    {
        DemoHand.Must(await hand.The<StartRun>().RunAsync(new(hand.Command(), hand.Anybody(), run, BlackIsIn: true), cancel));
        var sheets = (await hand.The<ShowRuns>().CardAsync(run, cancel))!.Layout.Sheets;
        hand.Clock.Set(hand.Clock.Now.AddMinutes(12 + (4 * sheets.Sum(s => s.Prints.Count))));
        var wasted = sheets.Select((s, i) => new RecordRun.Waste(
                s.Prints.Count(_ => hand.Chance(0.06)), Causes[hand.Random.Next(Causes.Length)], sheets.Count > 1 ? i + 1 : null))
            .Where(w => w.Copies > 0).ToArray();
        DemoHand.Must(await hand.The<RecordRun>().RunAsync(new(hand.Command(), hand.Anybody(), run, wasted), cancel));
        return wasted.Sum(w => w.Copies);
    }

    /// <remarks>A prepared file is a cache: of what is printed it was thrown away long ago, so none is made for the past.</remarks>
    private Task SetPreparedAsync(int order, bool prepared, CancellationToken cancel) => hand.WriteAsync(async db =>
    {
        var line = (await db.PrintLines.FindAsync([order, 1], cancel))!;
        line.PreparedHash = prepared ? line.ImageHash : null;
    }, cancel);

    // In mm, of pictures of 3 by 2, with a border that leaves room for the printer's margin.
    private static (decimal Width, decimal Height, decimal Border) SizeOn(string format) => format switch
    {
        "A4" => (240, 160, 15),
        "A3" => (360, 240, 20),
        "A3+" => (420, 280, 15),
        "A2" => (540, 360, 20),
        _ => (720, 480, 25),
    };
}
