using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>Writes down that a claim was sent to a supplier, for a complaint that the supplier is to pay.</summary>
public sealed class NoteClaim(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var asks = request.Asks.Trim();
            if (asks.Length is 0 or > OrderLog.LongestText)
            {
                return new SayWhy("What is asked for?");
            }

            if (await db.Complaints.FindAsync([request.Complaint], cancel) is not { } complaint)
            {
                return new NoSuchComplaint(request.Complaint);
            }

            if (await db.Suppliers.AsNoTracking().SingleOrDefaultAsync(s => s.Code == request.Supplier, cancel) is not { } supplier)
            {
                return new WhichSupplier();
            }

            var now = clock.GetUtcNow();
            var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, now), request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (!before.Value)
            {
                await OrderLog.AddAsync(db, complaint.Order, FactKind.ClaimSent, $"{supplier.Name}, complaint {complaint.Number}: {asks}", now, request.By, cancel);
            }

            return new Done(complaint.Order);
        }, cancel);

    /// <param name="Asks">What the supplier is asked for.</param>
    public sealed record Request(CommandId Command, PersonName By, int Complaint, SupplierCode Supplier, string Asks);

    public sealed record Done(int Order);

    public sealed record WhichSupplier() : Refusal("On which supplier? The lot does not say where it was bought, or the supplier is not in the room’s list. Nothing was written down.");
}

public sealed record NoSuchComplaint(int Complaint) : Refusal($"There is no complaint {Complaint}.");
