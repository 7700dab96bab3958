using System.Globalization;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>The ways out of a print whose paper does not suffice, each reckoned whole.</summary>
internal static class WaysOut
{
    private const decimal MinutesACut = 1; // one person at the trimmer; common practice, no source
    private const int GoodsInMinutes = 60; // from the door to the shelf; common practice, no source

    /// <summary>Larger paper of the same kind, cut into what is missing by the exact pattern.</summary>
    public static IEnumerable<WayOut> CutDown(StockOut room, PrintLine line, Format usual, long missing)
    {
        foreach (var from in room.Kept(line.Paper).Where(f => f.Code != usual.Code && !usual.IsRoll).OrderBy(f => f.Order))
        {
            var item = new ItemCode(line.Paper, from.Code);
            var (has, taken, cuts, per) = (room.Has(item), 0L, 0, 0);
            if (from.IsRoll)
            {
                var laid = NestPacker.Pack([new(usual.Code.Value, usual.Width, usual.Height, (int)missing)], Stock.Roll(from.Width, default, default), 1, _ => true);
                if (has <= 0 || !laid.Granted)
                {
                    continue;
                }

                taken = (laid.Value.RollUsed.Micrometres + 999) / 1000;
                (cuts, per) = (2 * (int)missing, (int)missing);
            }
            else
            {
                var trimming = Trimming.Of(from, from.Height, usual);
                if (!trimming.Granted || has <= 0)
                {
                    continue;
                }

                per = trimming.Value.PerSheet;
                taken = (missing + per - 1) / per;
                cuts = trimming.Value.Cuts.Count * (int)taken;
            }

            var minutes = cuts * MinutesACut;
            var hands = room.Rates is { } rates ? minutes * rates.PersonPerMinute : (decimal?)null;
            var lot = room.Lots[item].OrderBy(l => l.GoodUntil ?? DateOnly.MaxValue).First();
            var amount = from.IsRoll ? $"{taken / 1000.0:0.##} m of {from.Code}" : $"{taken} {(taken == 1 ? "sheet" : "sheets")} of {from.Code}";
            yield return new(
                WayKind.CutDown, $"Cut {amount} into {usual.Code}",
                $"{(from.IsRoll ? $"{missing} pieces" : $"{per} {(per == 1 ? "piece" : "pieces")} from each sheet")}, {cuts} cuts, about {minutes:0} minutes at the trimmer. Guard down, cut away from the hand; mark the coated side before the first cut.",
                room.Done(line, line.Paper, room.ByHand((double)minutes)),
                room.Each(item) is { } each && hands is { } paid ? (taken * each) + paid : null,
                Costs(("paper", room.Each(item) * taken), ("cutting", hands)), room.Restock(item, Math.Min(taken, has)),
                taken > has ? $"Only {(from.IsRoll ? $"{has / 1000.0:0.##} m" : $"{has}")} of {from.Code} {(has == 1 ? "is" : "are")} here." : null, $"/shelf/lots/{lot.Lot}");
        }
    }

    /// <summary>Other papers of the line-up that lie here and have a profile: the promised paper's own class first, then what holds more of the picture.</summary>
    /// <param name="fits">Of each paper that has a profile, how the picture would fit it.</param>
    public static IEnumerable<WayOut> OtherPaper(StockOut room, PrintLine line, IReadOnlyDictionary<PaperCode, PaperFit> fits)
    {
        const double asWell = 0.02; // of the picture: a paper that loses so little more is no worse to look at; common practice, no source
        var (wanted, own) = (room.Papers[line.Paper], fits.GetValueOrDefault(line.Paper)?.Lost);
        var others = room.Papers.Values.Where(p => p.Code != line.Paper && fits.ContainsKey(p.Code))
            .OrderByDescending(p => p.Class == wanted.Class).ThenBy(p => fits[p.Code].Lost ?? 1).ThenBy(p => p.Name, StringComparer.Ordinal);
        foreach (var (place, paper) in others.Index())
        {
            if (room.Usual(line, paper.Code) is not var (format, wants, has) || has < wants)
            {
                continue;
            }

            var (item, fit) = (new ItemCode(paper.Code, format.Code), fits[paper.Code]);
            var surface = paper.Class == wanted.Class
                ? $"{HandlingAdvice.ClassWords(paper.Class)} like {wanted.Name}" : $"{HandlingAdvice.ClassWords(paper.Class)} where {wanted.Name} is {HandlingAdvice.ClassWords(wanted.Class)}";
            var held = fit.Lost is { } lost ? $"it holds {AllBut(lost)} of the picture’s colours{(own is { } before ? $", {wanted.Name} {AllBut(before)}" : "")}" : "whether it holds the picture’s colours cannot be told, so look at the proof";
            yield return new(
                WayKind.OtherPaper, $"Print it on {paper.Name}, {format.Code}",
                $"{char.ToUpper(surface[0], CultureInfo.CurrentCulture)}{surface[1..]}, {paper.Grammage} g/m2; {held}. Ask the client first: another paper is another picture. Then change the paper at the order, and prepare its file again.",
                room.Done(line, paper.Code, room.Now), room.Each(item) * wants, Costs(("paper", room.Each(item) * wants)), room.Restock(item, wants),
                fit.Profile.Standing is Standing.Drifting ? $"Its profile {fit.Profile.Number} is drifting. Read a strip first."
                : fit.Lost > (own ?? 0) + asWell ? $"It loses {Percent(fit.Lost.Value - (own ?? 0))} more of the picture’s colours." : null,
                $"/orders/{line.Order}/{line.Line}/proof?paper={Uri.EscapeDataString(paper.Code.Value)}")
            {
                Place = place,
            };
        }
    }

    /// <summary>Every supplier that has a price for the paper in its format, by every way it sends.</summary>
    public static IEnumerable<WayOut> OtherSupplier(StockOut room, PrintLine line, Format usual, long missing)
    {
        var item = new ItemCode(line.Paper, usual.Code);
        foreach (var list in room.Prices[item].GroupBy(p => p.Supplier))
        {
            var (sending, pack) = (room.Sendings[list.Key], Buying.PriceList.PackOf([.. list]) ?? 1);
            var packs = (int)((missing + pack - 1) / pack);
            var price = Buying.PriceList.PriceOf([.. list], packs) * packs;
            var carriage = price >= sending.Supplier.CarriageFreeFrom ? 0 : sending.Supplier.Carriage;
            foreach (var way in sending.Ways)
            {
                var promise = sending.Clock.Promise(way, room.Now);
                var here = new DateTimeOffset(promise.ComesOn.ToDateTime(room.Opens), room.Zone.GetUtcOffset(promise.ComesOn.ToDateTime(room.Opens))).AddMinutes(GoodsInMinutes);
                var cutOff = TimeZoneInfo.ConvertTime(promise.CutOff, room.Zone);
                yield return new(
                    WayKind.OtherSupplier, $"Buy {packs} {(packs == 1 ? "pack" : "packs")} from {sending.Supplier.Name}, {way.Name}",
                    $"Sent before {cutOff.ToString("d MMM HH:mm", CultureInfo.CurrentCulture)} it comes on {promise.ComesOn.ToString("d MMM", CultureInfo.CurrentCulture)}. Telephone: ask whether it lies there.",
                    room.Done(line, line.Paper, here), price + carriage, Costs(("paper", price), ("carriage", carriage)),
                    $"Of the {(usual.IsRoll ? $"{packs * pack / 1000.0:0.#} m" : $"{packs * pack} sheets")} that come {(usual.IsRoll ? $"{((packs * pack) - missing) / 1000.0:0.#} m" : $"{(packs * pack) - missing}")} go on the shelf.",
                    null, $"/buying/suppliers/{sending.Supplier.Code}");
            }
        }
    }

    /// <summary>The truth, with a day: the soonest at which the paper can be bought and printed.</summary>
    public static WayOut TellClient(StockOut room, PrintLine line, string client, IReadOnlyList<WayOut> bought, int now)
    {
        var soonest = bought.Where(w => w.WhyNot is null).Min(w => w.Ready);
        var some = $"{now} of the {line.ToPrint} prints can be ready as promised";
        return new(
            WayKind.TellClient, "Tell the client",
            !room.Printers[line.Paper].Any()
                ? $"“{client}, we cannot say yet when {line.Title} is ready on {room.Papers[line.Paper].Name}. Shall we propose another paper?” It has no profile to print with, so no day can be said."
            : soonest is { } day
                ? $"“{client}, {(now > 0 ? $"there is not enough paper here for {line.Title}. {some}; the rest" : $"the paper for {line.Title} has run out here. The prints")} will be ready on {day.ToString("d MMMM", CultureInfo.CurrentCulture)}. Is that in time, or shall we propose another paper?”"
                : $"“{client}, {(now > 0 ? $"there is not enough paper here for {line.Title}. {some}; we are asking when the rest comes" : $"the paper for {line.Title} has run out here, and we are asking when it comes")}. Shall we propose another paper?” No supplier has a price for it written down, so no day can be said.",
            soonest, 0, "a call: today, not on the day", "The paper is bought in the usual way.", null, $"/orders/{line.Order}");
    }

    private static string AllBut(double lost) => lost < 0.0005 ? "all" : $"all but {Percent(lost)}";

    private static string Percent(double share) => string.Create(CultureInfo.CurrentCulture, $"{100 * share:0.0} %");

    private static string Costs(params (string What, decimal? Sum)[] parts) => string.Join(", ", parts.Select(p => p.Sum is { } sum ? $"{p.What} {sum:0.00}" : $"no price for the {p.What} is written down"));
}

/// <summary>How a picture would fit a paper.</summary>
/// <param name="Profile">What its file would be made with.</param>
/// <param name="Lost">The share of the picture whose colours it does not hold, 0 to 1; none when that cannot be told.</param>
internal sealed record PaperFit(Profile Profile, double? Lost);
