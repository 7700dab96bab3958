using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>Writes down days on which a supplier neither packs nor delivers, beside public holidays; or opens them again.</summary>
public sealed class CloseSupplier(RoomStore room)
{
    private const int LongestClosure = 92;
    private const int LongestWhy = 100;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var days = request.Last.DayNumber - request.First.DayNumber + 1;
            if (days is < 1 or > LongestClosure || request.Why.Length > LongestWhy)
            {
                return new NotAClosure();
            }

            if (await db.Suppliers.FindAsync([request.Supplier], cancel) is null)
            {
                return new NoSuchSupplier(request.Supplier);
            }

            await db.Closures.Where(c => c.Supplier == request.Supplier && c.Day >= request.First && c.Day <= request.Last).ExecuteDeleteAsync(cancel);
            if (!request.OpenAgain)
            {
                db.Closures.AddRange(Enumerable.Range(0, days).Select(i => new SupplierClosure
                {
                    Supplier = request.Supplier,
                    Day = request.First.AddDays(i),
                    Why = request.Why.Trim(),
                }));
            }

            return new Done(days);
        }, cancel);

    public sealed record Request(SupplierCode Supplier, DateOnly First, DateOnly Last, string Why = "", bool OpenAgain = false);

    public sealed record Done(int Days);

    public sealed record NotAClosure() : Refusal($"A closure has a first and a last day, at most {LongestClosure} days, and a short reason.");
}
