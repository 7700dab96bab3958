using Goodsheet.App.Buying;
using Goodsheet.App.Shelf;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Opening;

/// <summary>What lies on the shelf, paper and all else, and what suppliers ask for it.</summary>
internal static class OpeningGoods
{
    private const int LongestText = 80;

    public static (LineState, string) Shelf(OpeningPass pass, OpeningFile.Row row)
    {
        var fields = new OpeningFields(row, pass.Mark);
        var (paper, format) = (pass.Paper(fields.Text("paper", LongestText)), pass.Format(fields.Text("format", LongestText)));
        var quantity = fields.Quantity("quantity", format.IsRoll);
        var (best, place, maker) = (fields.Day("best_before"), fields.Text("place", LongestText, needed: false), fields.Text("makers_number", LongestText, needed: false));
        SupplierCode? supplier = row["supplier"].Trim() is { Length: > 0 } from ? pass.Supplier(from) : null;
        var reserve = row["reserve"].Trim() is "" or "0" ? 0 : fields.Quantity("reserve", format.IsRoll);
        pass.Once($"{paper.Code}|{format.Code}|{best}|{place}|{maker}", row.Line);
        var old = best < pass.Today;
        var item = pass.Item(paper, format, quantity);
        (item.Supplier, item.Reserve) = (item.Supplier ?? supplier, reserve > 0 ? reserve : item.Reserve);
        item.Place = item.Place.Length > 0 ? item.Place : place;
        var lot = new Lot
        {
            Code = new(pass.NextLot.ToString(System.Globalization.CultureInfo.InvariantCulture)),
            Paper = paper.Code,
            Format = format.Code,
            Received = pass.Today,
            BestBefore = best,
            Place = place,
            Supplier = supplier,
            MakersNumber = maker.Length > 0 ? maker : null,
            Condition = old ? LotCondition.TestsOnly : LotCondition.Sound,
            ConditionWhy = old ? "out of date on opening day" : null,
        };
        pass.NextLot++;
        pass.Db.Lots.Add(lot);
        var nothing = LotBalance.Nothing(lot.Code);
        var move = lot.PutAway(nothing, quantity, pass.Wish) with { Line = pass.NextLot };
        pass.Db.Moves.Add(move);
        if (nothing.After(move) is { CheckpointIsDue: true } kept)
        {
            pass.Db.Checkpoints.Add(kept);
        }

        var amount = format.IsRoll ? $"{quantity / 1000m:0.###} m" : $"{quantity} sheets";
        return (LineState.Fine, $"{amount} of {paper.Name}, {format.Code}, lot {lot.Code}{(old ? ": out of date, for tests only" : "")}");
    }

    public static (LineState, string) Price(OpeningPass pass, OpeningFile.Row row)
    {
        var fields = new OpeningFields(row, pass.Mark);
        var supplier = pass.Supplier(fields.Text("supplier", LongestText));
        var (paper, format) = (pass.Paper(fields.Text("paper", LongestText)), pass.Format(fields.Text("format", LongestText)));
        var (from, packs) = (fields.Day("from") ?? pass.Today, (int)fields.Whole("from_packs", 1, PriceLimits.MostPacks, 1));
        var (pack, price) = (fields.Quantity("pack", format.IsRoll), fields.Money("price"));
        pass.Once($"{supplier}|{paper.Code}|{format.Code}|{from}|{packs}", row.Line);
        if (price > PriceLimits.Most)
        {
            throw new LineIsWrongException($"a price is at most {PriceLimits.Most}");
        }

        pass.Item(paper, format, pack).Supplier ??= supplier;
        if (pass.Db.Prices.Find(supplier, paper.Code, format.Code, from, packs) is { } known)
        {
            (known.PackSize, known.Price) = (pack, price);
        }
        else
        {
            pass.Db.Prices.Add(new() { Supplier = supplier, Paper = paper.Code, Format = format.Code, From = from, FromPacks = packs, PackSize = pack, Price = price });
        }

        return (LineState.Fine, $"{paper.Name}, {format.Code} at {supplier}: {price:0.00} a pack");
    }

    public static (LineState, string) Consumable(OpeningPass pass, OpeningFile.Row row)
    {
        var fields = new OpeningFields(row, pass.Mark);
        var name = fields.Text("name", KeepConsumable.Request.LongestName);
        var code = new ConsumableCode(Slug.Of(name));
        var printer = row["printer"].Trim() is { Length: > 0 } fits ? pass.Printer(fits).Code : (Room.Printers.PrinterCode?)null;
        var request = new KeepConsumable.Request(
            null, name, fields.Word<ConsumableKind>("kind"), printer, fields.Text("channel", LongestText, needed: false),
            row["ml"].Trim().Length == 0 ? 0 : (double)fields.Number("ml"), fields.Whole("reorder_at", 0, KeepConsumable.Request.MostPieces, 0), fields.Text("place", LongestText, needed: false), null);
        if (request.Wrong() is { } wrong)
        {
            throw new LineIsWrongException(wrong.Message.TrimEnd('.'));
        }

        var (quantity, best, maker) = (fields.Whole("quantity", 0, KeepConsumable.Request.MostPieces), fields.Day("best_before"), fields.Text("makers_number", LongestText, needed: false));
        pass.Once($"{code}|{best}|{maker}", row.Line);
        if (!pass.Consumables.TryGetValue(code, out var known))
        {
            var consumable = request.New(code);
            (consumable.Millilitres, consumable.ReorderAt, consumable.Place) = (request.Millilitres, request.ReorderAt, request.Place);
            pass.Db.Consumables.Add(consumable);
            known = (consumable, 0, 0);
        }

        if (quantity > 0)
        {
            known = (known.Kept, known.Lots + 1, known.Moves + 1);
            pass.Db.ConsumableLots.Add(new() { Consumable = code, Number = known.Lots, Received = pass.Today, BestBefore = best, MakersNumber = maker });
            pass.Db.ConsumableMoves.Add(new(
                code, known.Moves, pass.Wish.Command, known.Moves, known.Lots, Account.Supplier, Account.Shelf, quantity, pass.Wish.Reason, pass.Wish.At, pass.Wish.By));
        }

        pass.Consumables[code] = known;
        return (LineState.Fine, $"{quantity} of {name}{(best < pass.Today ? ", out of date" : "")}");
    }
}
