using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Buying;

/// <summary>Takes the goods of one delivery note in against an order: what came whole becomes lots, what is short, damaged or wrong is kept on the order.</summary>
public sealed class TakeDelivery(RoomStore room, TimeProvider clock)
{
    private const int LongestNote = 60;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var note = Delivery.Plain(request.Note);
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "goods-in", $"order {request.Order}, note {note}");
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            var order = await db.Purchases.FindAsync([request.Order], cancel);
            if (order is null)
            {
                return new NoSuchPurchase(request.Order);
            }

            if (before.Value)
            {
                return new Done([.. (await db.MovesOfAsync(request.Command, cancel)).Select(m => m.Lot)], order.State);
            }

            var lines = await db.PurchaseLines.Where(l => l.Order == order.Number).ToDictionaryAsync(l => l.Line, cancel);
            var pieces = await db.PurchasePieces.Where(l => l.Order == order.Number).ToDictionaryAsync(l => l.Line, cancel);
            if (order.MayCome().Refusal is { } no)
            {
                return no;
            }

            if (Wrong(request, note, [.. lines.Keys, .. pieces.Keys], pieces) is { } wrong)
            {
                return wrong;
            }

            if (await db.Deliveries.FindAsync([order.Supplier, note], cancel) is { } earlier)
            {
                return new NoteCameBefore(note, earlier.CameOn, earlier.Order);
            }

            var lots = await PutAwayAsync(db, order, lines, request, wish, cancel);
            await new PiecesIn(db, order.Number, wish).PutAwayAsync(request.Boxes, pieces, clock.Today(), cancel);
            var all = lines.Values.All(l => l.Missing == 0) && pieces.Values.All(p => p.Missing == 0);
            await BookAsync(db, order, all, request, note, cancel);
            return new Done(lots, order.State);
        }, cancel);

    private Refusal? Wrong(Request request, string note, HashSet<int> lines, Dictionary<int, PiecesLine> pieces)
    {
        if (note.Length is 0 or > LongestNote)
        {
            return new NoNote();
        }

        if (request.Boxes.SelectMany(b => (long[])[b.Came, b.Damaged, b.Wrong]).FirstOrDefault(q => q is < 0 or > PutAway.Request.Most) is var q and not 0)
        {
            return new NotAQuantity(q);
        }

        if (request.Boxes.All(b => b is { Came: 0, Damaged: 0, Wrong: 0 }))
        {
            return new NothingCame();
        }

        if (request.Boxes.FirstOrDefault(b => !lines.Contains(b.Line)) is { } stray)
        {
            return new NoSuchLine(request.Order, stray.Line);
        }

        if (request.Boxes.FirstOrDefault(b => pieces.ContainsKey(b.Line) && b.Came > KeepConsumable.Request.MostPieces) is { } many)
        {
            return new NotAQuantity(many.Came);
        }

        return request.Boxes.FirstOrDefault(b => b.Came > 0 && b.BestBefore < clock.Today()) is { } old
            ? new DeliveredOutOfDate(new(old.MakersNumber ?? $"of line {old.Line}"), old.BestBefore!.Value) : null;
    }

    private async Task<List<LotCode>> PutAwayAsync(
        RoomDb db, PurchaseOrder order, Dictionary<int, PurchaseLine> lines, Request request, Wish wish, CancellationToken cancel)
    {
        var lots = new List<LotCode>();
        foreach (var box in request.Boxes.Where(b => lines.ContainsKey(b.Line)))
        {
            var line = lines[box.Line];
            (line.CameDamaged, line.CameWrong) = (line.CameDamaged + box.Damaged, line.CameWrong + box.Wrong);
            if (box.Came == 0)
            {
                continue;
            }

            line.Came += box.Came;
            var item = (await db.Items.FindAsync([line.Paper, line.Format], cancel))!;
            var lot = new Lot
            {
                Code = await PutAway.NextAsync(db, cancel),
                Paper = line.Paper,
                Format = line.Format,
                Received = clock.Today(),
                BestBefore = box.BestBefore,
                Place = box.Place.Length > 0 ? box.Place : item.Place,
                Supplier = order.Supplier,
                MakersNumber = box.MakersNumber,
            };
            db.Lots.Add(lot);
            var nothing = LotBalance.Nothing(lot.Code);
            lots.Add(lot.Code);
            await db.AddAsync(lot.PutAway(nothing, box.Came, wish) with { Line = lots.Count }, nothing, cancel);
        }

        return lots;
    }

    private async Task BookAsync(
        RoomDb db, PurchaseOrder order, bool all, Request request, string note, CancellationToken cancel)
    {
        var today = clock.Today();
        var promised = order.PromisedOn!.Value;
        var days = (await db.ClocksAsync(today, cancel))[order.Supplier].Clock.Works;
        db.Deliveries.Add(new()
        {
            Supplier = order.Supplier,
            Note = note,
            Order = order.Number,
            CameOn = today,
            DaysLate = today > promised ? days.WorkingDaysBetween(promised, today) : -days.WorkingDaysBetween(today, promised),
            Complete = all && request.Boxes.All(b => b is { Damaged: 0, Wrong: 0 }),
            By = request.By,
        });
        order.Came(today, all);
    }

    public sealed record Request(CommandId Command, PersonName By, int Order, string Note, IReadOnlyList<Box> Boxes)
    {
        // Two requests are the same only if their boxes are.
        private bool PrintMembers(StringBuilder text)
        {
            text.Append(CultureInfo.InvariantCulture, $"{Command}, {By}, {Order}, {Note}: ").AppendJoin("; ", Boxes);
            return true;
        }
    }

    /// <summary>What came of one line under one maker's number: whole, damaged, or not what was ordered. In sheets or mm.</summary>
    public sealed record Box(int Line, long Came, long Damaged = 0, long Wrong = 0, DateOnly? BestBefore = null, string? MakersNumber = null, string Place = "");

    public sealed record Done(IReadOnlyList<LotCode> Lots, PurchaseState State);

    public sealed record NoNote() : Refusal($"Write the number of the delivery note, at most {LongestNote} letters: it is taken in once.");

    public sealed record NothingCame() : Refusal("Nothing came by these figures. Nothing was put away.");

    public sealed record NoSuchLine(int Order, int Line) : Refusal($"Order {Order} has no line {Line}.");

    public sealed record NoteCameBefore(string Note, DateOnly On, int Order)
        : Refusal($"Delivery note {Note} was taken in on {On:yyyy-MM-dd}, for order {Order}. Nothing was put away a second time. If this is another delivery, read its number again.");
}
