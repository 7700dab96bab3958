using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Money;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Money;

/// <summary>What each print line of an order takes, and so costs, by the room's rates of a day.</summary>
internal static class OrderCost
{
    private const decimal PerSquareMetre = 1e12m;

    public sealed record Line(PrintLine Print, string Paper, CostSheet Sheet, decimal Area);

    public static async Task<Rates?> RatesAsync(RoomDb db, DateOnly day, CancellationToken cancel) =>
        await db.Rates.AsNoTracking().Where(r => r.From <= day).OrderByDescending(r => r.From).ThenByDescending(r => r.Number).FirstOrDefaultAsync(cancel);

    public static async Task<Outcome<List<Line>>> OfAsync(RoomDb db, IReadOnlyList<PrintLine> prints, Rates rates, DateOnly day, CancellationToken cancel)
    {
        var lines = new List<Line>();
        foreach (var print in prints)
        {
            var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == print.Paper, cancel);
            var found = await PaperAsync(db, print, day, cancel);
            if (!found.Granted)
            {
                return found.Refusal;
            }

            var printer = await (
                from condition in db.Conditions.AsNoTracking()
                join p in db.Printers on condition.Printer equals p.Code
                where condition.Paper == paper.Code
                select p).FirstOrDefaultAsync(cancel) ?? await db.Printers.AsNoTracking().OrderBy(p => p.Code).FirstOrDefaultAsync(cancel);
            var image = print.Copies * (decimal)print.Width.Micrometres * print.Height.Micrometres / PerSquareMetre;
            var loads = PrintTime.Loads(paper.FeedFrom(found.Value.Sheets is null), found.Value.Sheets ?? 1);
            var perLoad = (decimal)((await db.PlanSettings.AsNoTracking().SingleOrDefaultAsync(cancel))?.MinutesPerLoad ?? new PlanSettings().MinutesPerLoad);
            var minutes = 60 * image / (decimal)Math.Max(printer?.SquareMetresPerHour ?? 2, 0.01);
            var work = new PrintWork(print.Copies, found.Value.Used, image, minutes, loads * perLoad, found.Value.Price);
            lines.Add(new(print, paper.Name, CostSheet.Of(work, rates), print.Copies * (decimal)print.FullWidth.Micrometres * print.FullHeight.Micrometres / PerSquareMetre));
        }

        return lines;
    }

    // The format that costs least for this many copies, laid out with its trim.
    private static async Task<Outcome<PaperUsed>> PaperAsync(RoomDb db, PrintLine print, DateOnly day, CancellationToken cancel)
    {
        var prices = await db.Prices.AsNoTracking().Where(p => p.Paper == print.Paper && p.From <= day && p.FromPacks == 1).ToListAsync(cancel);
        var plain = await db.PaperPrices.AsNoTracking().Where(p => p.Paper == print.Paper && p.From <= day).OrderByDescending(p => p.From).FirstOrDefaultAsync(cancel);
        var formats = await db.Formats.AsNoTracking().ToListAsync(cancel);
        var kept = await db.Items.AsNoTracking().Where(i => i.Paper == print.Paper).Select(i => i.Format).ToListAsync(cancel);
        PaperUsed? best = null;
        foreach (var format in formats.Where(f => kept.Contains(f.Code)))
        {
            var area = (decimal)format.Width.Micrometres * format.Height.Micrometres / PerSquareMetre;
            var bought = prices.Where(p => p.Format == format.Code).MaxBy(p => p.From);
            var price = bought is null ? plain?.PerSquareMetre : bought.Price / (format.IsRoll ? bought.PackSize * 1000m * format.Width.Micrometres / PerSquareMetre : bought.PackSize * area);
            var stock = format.IsRoll ? Stock.Roll(format.Width, default, default) : Stock.Sheet(format.Width, format.Height, default, default);
            var laid = NestPacker.Pack([new(print.Title, print.FullWidth, print.FullHeight, print.Copies)], stock, 1, _ => true);
            if (price is { } each && laid.Granted)
            {
                var used = format.IsRoll ? (decimal)laid.Value.RollUsed.Micrometres * format.Width.Micrometres / PerSquareMetre : laid.Value.Sheets.Count * area;
                best = best is null || used * each < best.Used * best.Price ? new(used, each, format.IsRoll ? null : laid.Value.Sheets.Count) : best;
            }
        }

        return best is null ? new NoPriceOfPaper(print.Paper) : best;
    }

    private sealed record PaperUsed(decimal Used, decimal Price, int? Sheets); // none from a roll
}

public sealed record NoPriceOfPaper(PaperCode Paper) : Refusal($"What {Paper} costs is not written down, or no format of it that the room keeps is large enough. Write its price under Money.");

public sealed record NoRates() : Refusal("The room has no rates yet. Write down what ink, minutes and paper cost here under Money; no market price comes with the program.");
