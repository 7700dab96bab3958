using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Buying;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Money;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Runs;
using Standing = Goodsheet.Room.Profiles.Standing;

namespace Goodsheet.App.Orders;

/// <summary>All that decides what can be done when paper does not suffice, read together.</summary>
internal sealed class StockOut
{
    private const int DaysAhead = 120; // further than any supplier's promise

    public required DateTimeOffset Now { get; init; }

    public required DateOnly Today { get; init; }

    public required TimeOnly Opens { get; init; }

    public required TimeOnly Closes { get; init; }

    public required OpenHours Hours { get; init; }

    public required PlanSettings Plan { get; init; }

    public required TimeZoneInfo Zone { get; init; }

    public required Rates? Rates { get; init; }

    public required IReadOnlyDictionary<PaperCode, Paper> Papers { get; init; }

    public required IReadOnlyDictionary<FormatCode, Format> Formats { get; init; }

    public required IReadOnlyDictionary<ItemCode, Item> Items { get; init; }

    public required ILookup<ItemCode, ShelfLines.Line> Lots { get; init; }

    public required ILookup<ItemCode, PriceLine> Prices { get; init; }

    public required ILookup<PaperCode, PaperPrice> PaperPrices { get; init; }

    public required IReadOnlyDictionary<SupplierCode, Sending> Sendings { get; init; }

    /// <summary>Where each paper has a profile that files can be made with.</summary>
    public required ILookup<PaperCode, Printer> Printers { get; init; }

    public static async Task<StockOut> LoadAsync(RoomDb db, TimeProvider clock, CancellationToken cancel)
    {
        var (now, today) = (clock.GetUtcNow(), clock.Today());
        var settings = await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
        var plan = await db.PlanSettings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
        var printers = await (
            from condition in db.Conditions.AsNoTracking()
            join printer in db.Printers on condition.Printer equals printer.Code
            where !printer.Gone && db.Profiles.Any(
                p => p.Condition == condition.Code && (p.Standing == Standing.Trusted || p.Standing == Standing.Due || p.Standing == Standing.Drifting))
            select new { condition.Paper, Printer = printer }).ToListAsync(cancel);
        return new()
        {
            Now = now,
            Today = today,
            Opens = settings.Opens,
            Closes = settings.Closes,
            Hours = OpenHours.Of(now, clock.LocalTimeZone, settings.Opens, settings.Closes, plan.WorksOn, DaysAhead),
            Plan = plan,
            Zone = clock.LocalTimeZone,
            Rates = await Money.OrderCost.RatesAsync(db, today, cancel),
            Papers = await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, cancel),
            Formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel),
            Items = (await db.Items.AsNoTracking().ToListAsync(cancel)).ToDictionary(i => i.Code),
            Lots = (await ShelfLines.Left(db).ToListAsync(cancel)).Where(l => l.IsForClients(today)).ToLookup(l => new ItemCode(l.Paper, l.Format)),
            Prices = (await db.Prices.AsNoTracking().Where(p => p.From <= today).ToListAsync(cancel)).ToLookup(p => new ItemCode(p.Paper, p.Format)),
            PaperPrices = (await db.PaperPrices.AsNoTracking().Where(p => p.From <= today).ToListAsync(cancel)).ToLookup(p => p.Paper),
            Sendings = await db.ClocksAsync(today, cancel),
            Printers = printers.ToLookup(p => p.Paper, p => p.Printer),
        };
    }

    /// <summary>The formats of a paper that the room keeps.</summary>
    public IEnumerable<Format> Kept(PaperCode paper) => Items.Keys.Where(i => i.Paper == paper).Select(i => Formats[i.Format]);

    /// <summary>Sheets or mm that may go to a client.</summary>
    public long Has(ItemCode item) => Lots[item].Sum(l => l.OnShelf);

    /// <summary>The format that a line wants, the smallest kept that takes it, and how much of it.</summary>
    public (Format Format, long Wants, long Has)? Usual(PrintLine line, PaperCode paper) =>
        KnownWork.FormatFor(line.FullWidth, line.FullHeight, Kept(paper)) is { } format
            ? (format, KnownWork.Wants(line.FullWidth, line.FullHeight, Math.Max(1, line.ToPrint), format), Has(new(paper, format.Code))) : null;

    /// <summary>Of a sheet or mm today: at the supplier it is bought from, else at any, else by the square metre.</summary>
    public decimal? Each(ItemCode item)
    {
        var bought = Items.GetValueOrDefault(item)?.Supplier;
        if (Prices[item].OrderByDescending(p => p.Supplier == bought).ThenByDescending(p => p.From).ThenBy(p => p.FromPacks).FirstOrDefault() is { } price)
        {
            return price.Price / price.PackSize;
        }

        return PaperPrices[item.Paper].MaxBy(p => p.From)?.PerSquareMetre * Formats[item.Format].AreaOfOne;
    }

    /// <summary>When hands that begin now are through with it.</summary>
    public DateTimeOffset ByHand(double minutes) => At(Hours.Worked(0, minutes));

    /// <summary>Printed from then on, dry, and somebody there to give it out, by the plan's own hours; none where the paper has no profile.</summary>
    /// <remarks>What waits at the printers already is not counted.</remarks>
    public DateTimeOffset? Done(PrintLine line, PaperCode code, DateTimeOffset from)
    {
        var (paper, prints) = (Papers[code], Math.Max(1, line.ToPrint));
        var usual = Usual(line, code);
        var feed = paper.FeedFrom(usual?.Format.IsRoll ?? false);
        var squareMetres = prints * (double)line.FullWidth.Micrometres * line.FullHeight.Micrometres / 1e12;
        var ends = Printers[code].Select(p => PrintTime.Of(p, feed, squareMetres, usual?.Wants ?? prints, Plan)).Select(minutes =>
        {
            var begins = Hours.Open((from - Now).TotalMinutes, Plan.MinutesPerPaperChange) + Plan.MinutesPerPaperChange;
            return PrintTime.KeepsAPerson(feed) ? Hours.Worked(begins, minutes) : begins + minutes;
        }).ToList();
        return ends.Count == 0 ? null : At(Hours.Open(ends.Min() + (60 * paper.DryingHours), 0));
    }

    // To the nearest tick: half past eight, counted in minutes and back, is not a hair before it.
    private DateTimeOffset At(double minute) => Now.AddTicks((long)Math.Round(minute * TimeSpan.TicksPerMinute));

    /// <summary>What is left of an item after so much is taken, and what is to be ordered because of it.</summary>
    public string Restock(ItemCode item, long taken)
    {
        var (left, kept) = (Has(item) - taken, Items[item]);
        var unit = Formats[item.Format].IsRoll ? $"{left / 1000.0:0.#} m" : $"{left} {(left == 1 ? "sheet" : "sheets")}";
        if (left >= kept.Reserve && left > 0)
        {
            return $"{unit} of {item.Format} stay{(kept.Reserve > 0 ? ", over the reserve" : "")}.";
        }

        var packs = Math.Max(1, (kept.Reserve - left + kept.PackSize - 1) / kept.PackSize);
        return $"{unit} of {item.Format} stay{(kept.Reserve > 0 ? ", under the reserve" : "")}: order {packs} {(packs == 1 ? "pack" : "packs")}{(Each(item) is { } each ? $", about {packs * kept.PackSize * each:0.00}" : "")}.";
    }
}
