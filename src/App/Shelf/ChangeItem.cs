using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Shelf;

/// <summary>Says how an item is kept: the same-day reserve, the pack, where it lies and where it is bought.</summary>
public sealed class ChangeItem(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.Reserve is < 0 or > PutAway.Request.Most)
            {
                return new NotAReserve(request.Reserve);
            }

            if (request.PackSize is < 1 or > PutAway.Request.Most)
            {
                return new NotAQuantity(request.PackSize);
            }

            if (request.Supplier is { } supplier && await db.Suppliers.FindAsync([supplier], cancel) is null)
            {
                return new Buying.NoSuchSupplier(supplier);
            }

            var item = await db.Items.FindAsync([request.Item.Paper, request.Item.Format], cancel);
            if (item is null)
            {
                if (await db.Papers.FindAsync([request.Item.Paper], cancel) is null || await db.Formats.FindAsync([request.Item.Format], cancel) is null)
                {
                    return new Buying.SetPrice.NoSuchItem(request.Item);
                }

                db.Items.Add(item = new() { Paper = request.Item.Paper, Format = request.Item.Format, PackSize = request.PackSize });
            }

            (item.Reserve, item.PackSize, item.Place, item.Supplier) = (request.Reserve, request.PackSize, request.Place.Trim(), request.Supplier);
            return new Done(item.Code);
        }, cancel);

    /// <param name="Reserve">Sheets or mm kept for work promised today; 0 for none.</param>
    public sealed record Request(ItemCode Item, long Reserve, long PackSize, string Place, SupplierCode? Supplier);

    public sealed record Done(ItemCode Item);

    public sealed record NotAReserve(long Reserve) : Refusal($"{Reserve} cannot be a reserve: it is 0 or more, and at most {PutAway.Request.Most}.");
}
