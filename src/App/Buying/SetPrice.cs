using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Buying;

/// <summary>Writes down what a pack of an item costs at a supplier from a day on, and that it is bought there.</summary>
public sealed class SetPrice(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.Suppliers.FindAsync([request.Supplier], cancel) is null)
            {
                return new NoSuchSupplier(request.Supplier);
            }

            if (request.Price is < 0 or > PriceLimits.Most || request.PackSize is < 1 or > PriceLimits.MostInAPack || request.FromPacks is < 1 or > PriceLimits.MostPacks)
            {
                return new NotAPrice();
            }

            var item = await db.Items.FindAsync([request.Item.Paper, request.Item.Format], cancel);
            if (item is null)
            {
                if (await db.Papers.FindAsync([request.Item.Paper], cancel) is null || await db.Formats.FindAsync([request.Item.Format], cancel) is null)
                {
                    return new NoSuchItem(request.Item);
                }

                item = new() { Paper = request.Item.Paper, Format = request.Item.Format, PackSize = request.PackSize };
                db.Items.Add(item);
            }

            item.Supplier ??= request.Supplier;
            await db.WritePriceAsync(request, cancel);
            return new Done(item.Supplier.Value);
        }, cancel);

    public sealed record Request(SupplierCode Supplier, ItemCode Item, DateOnly From, int FromPacks, long PackSize, decimal Price);

    /// <param name="BoughtFrom">Where the item is bought unless somebody chooses otherwise.</param>
    public sealed record Done(SupplierCode BoughtFrom);

    public sealed record NotAPrice() : Refusal(
        $"A price is between 0 and {PriceLimits.Most}, for a pack of at least 1, from at least 1 pack on.");

    public sealed record NoSuchItem(ItemCode Item) : Refusal($"The room has no paper {Item.Paper} or no format {Item.Format}.");
}

/// <summary>Beyond these a price is a slip of the hand.</summary>
internal static class PriceLimits
{
    public const decimal Most = 100_000;
    public const int MostPacks = 1_000;
    public const long MostInAPack = 1_000_000;

    public static async Task WritePriceAsync(this RoomDb db, SetPrice.Request request, CancellationToken cancel)
    {
        var known = await db.Prices.FindAsync([request.Supplier, request.Item.Paper, request.Item.Format, request.From, request.FromPacks], cancel);
        if (known is not null)
        {
            (known.PackSize, known.Price) = (request.PackSize, request.Price);
            return;
        }

        db.Prices.Add(new()
        {
            Supplier = request.Supplier,
            Paper = request.Item.Paper,
            Format = request.Item.Format,
            From = request.From,
            FromPacks = request.FromPacks,
            PackSize = request.PackSize,
            Price = request.Price,
        });
    }
}
