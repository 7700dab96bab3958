using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>Writes down a supplier's new terms. Orders that were sent keep the day they were promised.</summary>
public sealed class ChangeSupplier(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.Terms.Wrong() is { } wrong)
            {
                return wrong;
            }

            var supplier = await db.Suppliers.FindAsync([request.Supplier], cancel);
            if (supplier is null)
            {
                return new NoSuchSupplier(request.Supplier);
            }

            request.Terms.WriteTo(supplier);
            await db.Dispatches.Where(w => w.Supplier == request.Supplier).ExecuteDeleteAsync(cancel);
            db.Dispatches.AddRange(request.Terms.Dispatches(request.Supplier));
            return new Done(request.Supplier);
        }, cancel);

    public sealed record Request(SupplierCode Supplier, SupplierTerms Terms);

    public sealed record Done(SupplierCode Supplier);
}
