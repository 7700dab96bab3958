using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Buying;

/// <summary>Puts the inks, blades and other pieces of a delivery away, each maker's number as a lot.</summary>
internal sealed class PiecesIn(RoomDb db, int order, Wish wish)
{
    public async Task PutAwayAsync(
        IReadOnlyList<TakeDelivery.Box> boxes, IReadOnlyDictionary<int, PiecesLine> lines, DateOnly today, CancellationToken cancel)
    {
        var written = new Dictionary<ConsumableCode, (int Lots, int Moves)>();
        var at = 0;
        foreach (var box in boxes.Where(b => lines.ContainsKey(b.Line)))
        {
            var line = lines[box.Line];
            (line.CameDamaged, line.CameWrong) = (line.CameDamaged + box.Damaged, line.CameWrong + box.Wrong);
            if (box.Came == 0)
            {
                continue;
            }

            line.Came += box.Came;
            var stock = await db.ConsumableStockAsync(line.Consumable, cancel)
                ?? throw new InvalidOperationException($"Order {order} has a line for {line.Consumable}, which the room does not keep.");
            var (lots, moves) = written.GetValueOrDefault(line.Consumable);
            var lot = new ConsumableLot
            {
                Consumable = line.Consumable,
                Number = stock.Lots.Count + lots + 1,
                Received = today,
                BestBefore = box.BestBefore,
                MakersNumber = box.MakersNumber ?? "",
            };
            db.ConsumableLots.Add(lot);
            var move = stock.PutAway(lot.Number, box.Came, wish);
            db.ConsumableMoves.Add(move with { Number = move.Number + moves, Line = ++at });
            written[line.Consumable] = (lots + 1, moves + 1);
        }
    }
}
