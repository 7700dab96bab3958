using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Takes paper of a lot from the shelf to a printer, for a client's work.</summary>
public sealed class DrawPaper(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Moved>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Quantity is < 1 or > PutAway.Request.Most)
        {
            return new NotAQuantity(request.Quantity);
        }

        var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "drawn", request.Reference);
        return await room.MoveAsync(wish, request.ToString(), request.Lot, async (db, lot, balance) =>
        {
            if (await db.Printers.FindAsync([request.Printer], cancel) is null)
            {
                return new NoSuchPrinter(request.Printer);
            }

            lot.Opened ??= clock.Today();
            var drawn = lot.Draw(balance, request.Quantity, request.Printer, wish, clock.Today());
            return drawn.Granted ? new Planned(drawn.Value) : drawn.Refusal;
        }, cancel);
    }

    /// <param name="Command">The wish's own id.</param>
    /// <param name="By">Who draws.</param>
    /// <param name="Lot">From which lot.</param>
    /// <param name="Quantity">Sheets, or mm of roll.</param>
    /// <param name="Printer">To which printer.</param>
    /// <param name="Reference">What for: "run 412".</param>
    public sealed record Request(
        CommandId Command, PersonName By, LotCode Lot, long Quantity, PrinterCode Printer, string? Reference = null);

    public sealed record NoSuchPrinter(PrinterCode Printer) : Refusal($"The room has no printer {Printer}.");
}
