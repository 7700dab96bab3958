using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Shelf;

/// <summary>Cuts sheets, or a length of roll, into smaller sheets: a lot of their own that knows what it was cut from.</summary>
public sealed class TrimPaper(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.Quantity is < 1 or > PutAway.Request.Most)
            {
                return new NotAQuantity(request.Quantity);
            }

            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), $"cut into {request.Into}");
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (before.Value)
            {
                var moves = await db.MovesOfAsync(request.Command, cancel);
                return new Done(moves[1].Lot, moves[1].Quantity);
            }

            if (await db.Lots.FindAsync([request.Lot], cancel) is not { } lot)
            {
                return new NoSuchLot(request.Lot);
            }

            var from = await db.Formats.SingleAsync(f => f.Code == lot.Format, cancel);
            if (await db.Formats.FindAsync([request.Into], cancel) is not { } into)
            {
                return new PutAway.NoSuchFormat(request.Into);
            }

            var trimming = Trimming.Of(from, Length.FromMillimetres(request.Quantity), into);
            if (!trimming.Granted)
            {
                return trimming.Refusal;
            }

            var balance = await db.BalanceAsync(lot.Code, cancel);
            var taken = lot.TakeForTrimming(balance, request.Quantity, wish);
            if (!taken.Granted)
            {
                return taken.Refusal;
            }

            await db.AddAsync(taken.Value, balance, cancel);
            lot.Opened ??= clock.Today();
            var pieces = trimming.Value.PerSheet * (from.IsRoll ? 1 : request.Quantity);
            var cut = await PutAsync(db, lot, into, pieces, request, wish, cancel);
            return new Done(cut, pieces);
        }, cancel);

    private async Task<LotCode> PutAsync(RoomDb db, Lot lot, Format into, long pieces, Request request, Wish wish, CancellationToken cancel)
    {
        if (await db.Items.FindAsync([lot.Paper, into.Code], cancel) is null)
        {
            db.Items.Add(new() { Paper = lot.Paper, Format = into.Code, PackSize = pieces, Place = request.Place });
        }

        var cut = new Lot
        {
            Code = await PutAway.NextAsync(db, cancel),
            Paper = lot.Paper,
            Format = into.Code,
            Received = clock.Today(),
            BestBefore = lot.BestBefore,
            ExtendedTo = lot.ExtendedTo,
            Opened = clock.Today(),
            Place = request.Place.Length > 0 ? request.Place : lot.Place,
            Condition = lot.Condition,
            ConditionWhy = lot.ConditionWhy,
            Supplier = lot.Supplier,
            MakersNumber = lot.MakersNumber,
            CutFrom = lot.Code,
        };
        db.Lots.Add(cut);
        var nothing = LotBalance.Nothing(cut.Code);
        await db.AddAsync(cut.PutTrimmed(nothing, pieces, wish with { Reason = $"cut from lot {lot.Code}" }, line: 2), nothing, cancel);
        return cut.Code;
    }

    /// <param name="Quantity">Sheets, or mm of roll, to cut up.</param>
    public sealed record Request(CommandId Command, PersonName By, LotCode Lot, long Quantity, FormatCode Into, string Place = "");

    /// <param name="Lot">The new lot of the pieces.</param>
    public sealed record Done(LotCode Lot, long Pieces);
}
