using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Puts paper that came on the shelf, as a new lot with a number of its own.</summary>
public sealed class PutAway(RoomStore room, TimeProvider clock)
{
    private const int FirstLot = 1001;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "goods-in", request.Reference);
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (before.Value)
            {
                return new Done((await db.MovesOfAsync(request.Command, cancel))[0].Lot);
            }

            if (request.Quantity is < 1 or > Request.Most)
            {
                return new NotAQuantity(request.Quantity);
            }

            if (await db.Papers.FindAsync([request.Paper], cancel) is null)
            {
                return new NoSuchPaper(request.Paper);
            }

            if (await db.Formats.FindAsync([request.Format], cancel) is null)
            {
                return new NoSuchFormat(request.Format);
            }

            var today = clock.Today();
            if (request.BestBefore < today && !request.ForTestsOnly)
            {
                return new DeliveredOutOfDate(new(request.MakersNumber ?? ""), request.BestBefore.Value);
            }

            if (await db.Items.FindAsync([request.Paper, request.Format], cancel) is null)
            {
                db.Items.Add(new() { Paper = request.Paper, Format = request.Format, PackSize = request.Quantity, Place = request.Place });
            }

            var lot = new Lot
            {
                Code = await NextAsync(db, cancel),
                Paper = request.Paper,
                Format = request.Format,
                Received = today,
                BestBefore = request.BestBefore,
                Place = request.Place,
                Supplier = request.Supplier,
                MakersNumber = request.MakersNumber,
                Condition = request.ForTestsOnly ? LotCondition.TestsOnly : LotCondition.Sound,
                ConditionWhy = request.ForTestsOnly ? "put away for tests" : null,
            };
            db.Lots.Add(lot);
            var nothing = LotBalance.Nothing(lot.Code);
            await db.AddAsync(lot.PutAway(nothing, request.Quantity, wish), nothing, cancel);
            return new Done(lot.Code);
        }, cancel);

    /// <summary>The next free number. Two who take it at once meet at the key, and the slower one asks again.</summary>
    internal static async Task<LotCode> NextAsync(RoomDb db, CancellationToken cancel)
    {
        var stored = await db.Lots.Select(l => l.Code).ToListAsync(cancel);
        var numbers = stored.Concat(db.Lots.Local.Select(l => l.Code))
            .Select(c => int.TryParse(c.Value, CultureInfo.InvariantCulture, out var n) ? n : 0);
        return new(Math.Max(FirstLot, numbers.DefaultIfEmpty(0).Max() + 1).ToString(CultureInfo.InvariantCulture));
    }

    public sealed record Request(
        CommandId Command, PersonName By, PaperCode Paper, FormatCode Format, long Quantity, DateOnly? BestBefore,
        string Place = "", SupplierCode? Supplier = null, string? MakersNumber = null, string? Reference = null,
        bool ForTestsOnly = false)
    {
        /// <summary>In sheets or mm: more than any room takes in at once, so a slip of the hand.</summary>
        public const long Most = 1_000_000;
    }

    public sealed record Done(LotCode Lot);

    public sealed record NoSuchPaper(PaperCode Paper) : Refusal($"The room has no paper {Paper}. Add it under Papers first.");

    public sealed record NoSuchFormat(FormatCode Format) : Refusal($"The room has no format {Format}.");
}

public sealed record NotAQuantity(long Quantity)
    : Refusal($"{Quantity} cannot be: a quantity is 1 or more, and at most {PutAway.Request.Most}.");
