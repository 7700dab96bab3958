using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Papers;
using Goodsheet.App.People;
using Goodsheet.App.Printers;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Demo;

/// <summary>Brings people, papers, printers and items into the empty demonstration room.</summary>
internal static class DemoFurniture
{
    public static async Task FurnishAsync(this DemoHand hand, CancellationToken cancel)
    {
        await hand.WriteAsync(async db =>
        {
            var settings = await db.Settings.SingleAsync(cancel);
            (settings.Name, settings.IsDemo) = (DemoCast.RoomName, true);
        }, cancel);
        foreach (var name in DemoCast.People)
        {
            DemoHand.Must(await hand.The<AddPerson>().RunAsync(new(name), cancel));
        }

        foreach (var p in DemoCast.Papers)
        {
            DemoHand.Must(await hand.The<AddPaper>().RunAsync(
                new(p.Name, p.Class, p.Base, p.Coat, p.Sides, p.Grammage, p.Caliper, p.Brightener, p.Feed, p.DryingHours), cancel));
        }

        DemoHand.Must(await hand.The<AddPrinter>().RunAsync(
            new(new(DemoCast.Keeper), DemoCast.Heron, InkKind.Pigment, true, 4, 3, Length.FromMillimetres(1118), [Feed.TwoOrThree, Feed.OneByOne, Feed.Roll], 360, "invented 3.1", "invented 1.4"), cancel));
        DemoHand.Must(await hand.The<AddPrinter>().RunAsync(
            new(new(DemoCast.Keeper), DemoCast.Wren, InkKind.Dye, false, 0, 0, Length.FromMillimetres(610), [Feed.Stack, Feed.TwoOrThree, Feed.Roll], 300, "invented 2.0", "invented 1.4"), cancel));
        await hand.WriteAsync(async db =>
        {
            foreach (var paper in await db.Papers.ToListAsync(cancel))
            {
                paper.LineUp = DemoCast.Paper(paper.Code).LineUp;
            }

            db.Items.AddRange(DemoCast.Items.Select(i => new Item
            {
                Paper = i.Code.Paper,
                Format = i.Code.Format,
                PackSize = i.Pack,
                Reserve = i.Reserve,
                Place = i.Place,
            }));
        }, cancel);
    }
}
