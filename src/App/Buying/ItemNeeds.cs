using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Buying;

/// <summary>Everything that decides whether an item is ordered, read together for all items.</summary>
internal static class ItemNeeds
{
    /// <summary>An item that came within so many days is new: its own use says little.</summary>
    private const int NewDays = 56;

    public static async Task<IReadOnlyList<Need>> NeedsAsync(this RoomDb db, TimeProvider clock, CancellationToken cancel)
    {
        var today = clock.Today();
        var items = await (
            from item in db.Items.AsNoTracking()
            join paper in db.Papers on item.Paper equals paper.Code
            where paper.LineUp == LineUp.In || paper.LineUp == LineUp.OnTrial
            select new { Item = item, paper.Name, paper.Class }).ToListAsync(cancel);
        var formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel);
        var lots = (await ShelfLines.Left(db).ToListAsync(cancel)).Where(l => l.IsForClients(today))
            .ToLookup(l => new ItemCode(l.Paper, l.Format));
        var coming = (await (
            from line in db.PurchaseLines.AsNoTracking()
            join order in db.Purchases on line.Order equals order.Number
            where order.State == PurchaseState.Sent || order.State == PurchaseState.PartDelivered
            select line).ToListAsync(cancel)).ToLookup(l => new ItemCode(l.Paper, l.Format));
        var promised = await db.PromisedAsync([.. items.Select(i => i.Item.Code)], formats, cancel);
        var use = await db.DailyUseAsync(clock, DailyUse.Days, cancel);
        var prices = (await db.Prices.AsNoTracking().Where(p => p.From <= today).ToListAsync(cancel)).ToLookup(p => (p.Supplier, new ItemCode(p.Paper, p.Format)));
        var own = items.ToDictionary(i => i.Item.Code, i => ItemDemand.Of(use.GetValueOrDefault(i.Item.Code) ?? [], today.AddDays(-1)));
        var settled = items.Where(i => use.GetValueOrDefault(i.Item.Code)?.Length >= NewDays).ToLookup(i => (i.Class, i.Item.Format), i => own[i.Item.Code]);
        return [.. items.Select(i => NeedOf(i.Item, i.Name, i.Class))];

        Need NeedOf(Item item, string name, PaperClass kind)
        {
            var days = use.GetValueOrDefault(item.Code) ?? [];
            var goes = days.Length is > 0 and < NewDays ? own[item.Code].Likened(days.Length, [.. settled[(kind, item.Format)]]) : own[item.Code];
            var price = item.Supplier is { } supplier ? prices[(supplier, item.Code)].ToList() : [];
            return new(item, name, formats[item.Format], price, days, goes, new()
            {
                Item = item.Code,
                IsRoll = formats[item.Format].IsRoll,
                Pack = PriceList.PackOf(price) ?? item.PackSize,
                Lots = [.. lots[item.Code].Select(l => (l.OnShelf, l.GoodUntil))],
                OnTheWay = coming[item.Code].Sum(l => l.Missing),
                Promised = promised.GetValueOrDefault(item.Code),
                Reserve = item.Reserve,
                PerDay = goes.PerDay,
                VariancePerDay = goes.VariancePerDay,
                RateVariance = goes.RateVariance,
                Week = goes.Week,
            });
        }
    }

    /// <summary>What the book's orders want: runs that are planned, and lines no run makes yet.</summary>
    private static async Task<Dictionary<ItemCode, long>> PromisedAsync(
        this RoomDb db, IReadOnlyList<ItemCode> items, Dictionary<FormatCode, Format> formats, CancellationToken cancel)
    {
        var promised = new Dictionary<ItemCode, long>();
        var runs = await db.Runs.AsNoTracking().Where(r => r.State == RunState.Planned).ToListAsync(cancel);
        foreach (var run in runs)
        {
            Add(new(run.Paper, run.Format), run.Needs);
        }

        var lines = await (
            from line in db.PrintLines.AsNoTracking()
            join order in db.Orders on line.Order equals order.Number
            where order.State == OrderState.Approved
            select line).ToListAsync(cancel);
        var onRuns = (await (
            from print in db.RunPrints.AsNoTracking()
            join run in db.Runs on print.Run equals run.Number
            where run.State == RunState.Planned || run.State == RunState.Printing
            select print).ToListAsync(cancel)).ToLookup(p => (p.Order, p.Line), p => p.Copies);
        var kept = items.ToLookup(i => i.Paper, i => formats[i.Format]);
        foreach (var line in lines)
        {
            var open = line.ToPrint - onRuns[(line.Order, line.Line)].Sum();
            if (open > 0 && KnownWork.FormatFor(line.FullWidth, line.FullHeight, kept[line.Paper]) is { } format)
            {
                Add(new(line.Paper, format.Code), KnownWork.Wants(line.FullWidth, line.FullHeight, open, format));
            }
        }

        return promised;

        void Add(ItemCode item, long quantity) => promised[item] = promised.GetValueOrDefault(item) + quantity;
    }
}

/// <summary>An item with its names, its prices at its supplier, how it went day by day, and what it needs.</summary>
internal sealed record Need(Item Item, string Paper, Format Format, IReadOnlyList<PriceLine> Prices, double[] Days, ItemDemand Goes, ItemNeed Of);
