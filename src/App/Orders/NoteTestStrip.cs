using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>Writes down that a test strip was printed: its paper is booked as tests are.</summary>
public sealed class NoteTestStrip(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "test strip", $"order {request.Order}");
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (await db.TestStrips.FindAsync([request.Order, request.Line, request.Number], cancel) is not { } strip)
            {
                return new NoSuchStrip(request.Number);
            }

            if (before.Value)
            {
                return new Done(strip.Number);
            }

            if (await db.Lots.FindAsync([request.Lot], cancel) is not { } lot)
            {
                return new NoSuchLot(request.Lot);
            }

            var line = (await db.PrintLines.FindAsync([request.Order, request.Line], cancel))!;
            if (lot.Paper != line.Paper)
            {
                return new Runs.PlanRun.LotIsOfAnotherPaper(lot.Code, lot.Paper);
            }

            if (request.Quantity is < 1 or > PutAway.Request.Most)
            {
                return new NotAQuantity(request.Quantity);
            }

            var balance = await db.BalanceAsync(lot.Code, cancel);
            var drawn = lot.DrawForTests(balance, request.Quantity, wish);
            if (!drawn.Granted)
            {
                return drawn.Refusal;
            }

            await db.AddAsync(drawn.Value, balance, cancel);
            lot.Opened ??= clock.Today();
            (strip.Lot, strip.PrintedAt) = (lot.Code, clock.GetUtcNow());
            return new Done(strip.Number);
        }, cancel);

    /// <param name="Quantity">Sheets, or mm of roll.</param>
    public sealed record Request(CommandId Command, PersonName By, int Order, int Line, int Number, LotCode Lot, long Quantity);

    public sealed record Done(int Strip);
}

public sealed record NoSuchStrip(int Number) : Refusal($"This print has no test strip {Number}.");
