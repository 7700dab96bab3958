using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Layout;
using Goodsheet.App.Orders;
using Goodsheet.App.Printers;
using Goodsheet.App.Runs;
using Goodsheet.App.Shelf;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Demo;

/// <summary>Leaves the demonstration room with something to print, to check, to order and to watch.</summary>
internal sealed class DemoToday(DemoHand hand, DemoDesk desk)
{
    public async Task BeginAsync(DateTimeOffset now, DateOnly today, CancellationToken cancel)
    {
        var layout = new DemoLayout(hand, desk);
        await layout.SayAsync(cancel);
        await ShelfAsync(today, cancel);
        await StandingsAsync(cancel);
        hand.Clock.Set(now.AddHours(-2));
        var smooth = Item("Unicorn Smooth 310", "A3+");
        var pearl = Item("Nonesuch Pearl 285", "A3+");
        var matte = Item("Teapot Matte 230", "A4");
        var printing = await desk.OrderAsync(matte, Full(now.AddHours(1.5)), 3, 0, cancel);
        var next = await desk.OrderAsync(pearl, Full(now.AddHours(4)), 2, 2, cancel);
        var ready = await desk.OrderAsync(smooth, Noon(1), 1, 1, cancel);
        var large = await desk.OrderAsync(Item("Nobody Baryta 315", "A2"), Noon(2), 2, 3, cancel);
        await desk.OrderAsync(Item("Figment Canvas 380", "roll 610"), Noon(4), 1, 0, cancel);
        await desk.OrderAsync(Item("Teapot Matte 230", "A4"), Noon(3), 6, 5, cancel);
        await desk.OrderAsync(smooth, Noon(5), 1, 4, cancel);
        var roll = Item("Unicorn Smooth 310", "roll 610");
        var laid = await layout.OrdersAsync(roll, Noon(2), Noon(9), cancel);
        var last = laid + 2;
        DemoHand.Must(await hand.The<SayHowLaid>().RunAsync(new(new(DemoCast.Keeper), large, 1, MayTurn: true, GoesAlong: false, StripFirst: true), cancel));
        DateTimeOffset Noon(int days) => hand.Clock.At(today.AddDays(days), 12);
        foreach (var order in (int[])[printing, next, ready])
        {
            await hand.Work<PreparePrint>().DoNowAsync($"print {order}/1", cancel);
        }

        for (var order = printing; order <= last; order++)
        {
            await hand.Work<LookAtPicture>().DoNowAsync($"Picture of print {order}/1", cancel);
        }

        hand.Clock.Set(now.AddMinutes(-35));
        await LoadAsync(cancel);
        var run = await PlanAsync(printing, matte, cancel);
        await PlanAsync(next, pearl, cancel);
        await PlanAsync(laid, roll, cancel);
        hand.Clock.Set(now.AddMinutes(-20));
        DemoHand.Must(await hand.The<StartRun>().RunAsync(new(hand.Command(), new(DemoCast.Keeper), run, BlackIsIn: true), cancel));
    }

    // Nobody promises a print for 17:39.
    private static DateTimeOffset Full(DateTimeOffset at) => new(at.Year, at.Month, at.Day, at.Hour, 0, 0, at.Offset);

    // A lot out of date, a lot that soon will be, and an item under its reserve.
    private async Task ShelfAsync(DateOnly today, CancellationToken cancel)
    {
        var lots = (await hand.The<ShowShelf>().RunAsync(new(), cancel)).Lots;
        var old = Item("Unicorn Smooth 210", "A3");
        var outOfDate = DemoHand.Must(await hand.The<PutAway>().RunAsync(
            new(hand.Command(), hand.Anybody(), old.Code.Paper, old.Code.Format, 14, null, old.Place), cancel)).Lot;
        await hand.WriteAsync(async db =>
        {
            (await db.Lots.FindAsync([outOfDate], cancel))!.BestBefore = today.AddDays(-9);
            var soon = lots.First(l => l.Paper == Item("Teapot Matte 190", "A4").Code.Paper).Lot;
            (await db.Lots.FindAsync([soon], cancel))!.BestBefore = today.AddDays(19);
        }, cancel);
        var low = Item("Nonesuch Satin 255", "A4");
        foreach (var lot in lots.Where(l => l.Paper == low.Code.Paper))
        {
            DemoHand.Must(await hand.The<CountLot>().RunAsync(new(hand.Command(), new(DemoCast.Keeper), lot.Lot, 6, "a box was lent and not written down"), cancel));
        }
    }

    // What only time brings about: a strip that was put off, and a chart nobody has held beside a print yet.
    private async Task StandingsAsync(CancellationToken cancel)
    {
        await new DemoStrips(hand).YesterdayAsync(cancel);
        await hand.WriteAsync(async db =>
        {
            var profiles = await (
                from profile in db.Profiles join condition in db.Conditions on profile.Condition equals condition.Code select new { profile, condition.Paper }).ToListAsync(cancel);
            foreach (var (profile, paper) in profiles.Select(p => (p.profile, p.Paper)))
            {
                (profile.Standing, profile.StandingWhy) = DemoCast.Paper(paper).Name switch
                {
                    "Teapot Matte 230" => (Standing.Due, "its last strip is 41 days old"),
                    "Nonesuch Gloss 260" => (Standing.New, "made and not yet held beside a print"),
                    _ => (profile.Standing, profile.StandingWhy),
                };
            }
        }, cancel);
    }

    private async Task LoadAsync(CancellationToken cancel)
    {
        var roll = Item("Nonesuch Pearl 285", "roll 610");
        var lot = (await LotsAsync(roll, cancel))[0];
        DemoHand.Must(await hand.The<LoadPrinter>().RunAsync(
            new(hand.Command(), new(DemoCast.Keeper), DemoCast.PrinterOf(DemoCast.Wren), lot.Lot, null, BlackInk.Dye, "Pearl"), cancel));
    }

    private async Task<int> PlanAsync(int order, DemoItem item, CancellationToken cancel)
    {
        foreach (var lot in await LotsAsync(item, cancel))
        {
            if (await hand.The<PlanRun>().RunAsync(new(hand.Command(), new(DemoCast.Keeper), order, lot.Lot), cancel) is { Granted: true } run)
            {
                return run.Value.Run;
            }
        }

        throw new InvalidOperationException($"The demonstration has no {item.Code} for order {order}.");
    }

    private async Task<IReadOnlyList<ShelfLines.Line>> LotsAsync(DemoItem item, CancellationToken cancel) =>
        [.. (await hand.The<ShowShelf>().RunAsync(new(item.Code.Paper), cancel)).Lots.Where(l => l.Format == item.Code.Format).OrderBy(l => l.GoodUntil)];

    private static DemoItem Item(string paper, string format) => DemoCast.Items.Single(i => i.Paper == paper && i.Format == format);
}
