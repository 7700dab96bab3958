using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Printers;

/// <summary>Says what is on a printer now: which lot, which black, which media setting. What was on it goes back to the shelf.</summary>
public sealed class LoadPrinter(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "loaded", $"printer {request.Printer}");
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            var printer = await db.Printers.FindAsync([request.Printer], cancel);
            var loaded = await db.Loaded.FindAsync([request.Printer], cancel);
            if (printer is null || loaded is null)
            {
                return new NoSuchPrinter(request.Printer);
            }

            if (before.Value)
            {
                return new Done(request.Printer);
            }

            if ((printer.Inks is InkKind.Dye) != (request.Black is BlackInk.Dye))
            {
                return new NoSuchBlack(printer.Name);
            }

            if (loaded.Lot is { } old && old != request.Lot)
            {
                await TakeOffAsync(db, old, request.Printer, wish with { Reason = "taken off" }, cancel);
            }

            if (request.Lot is { } code && code != loaded.Lot)
            {
                var lot = await db.Lots.FindAsync([code], cancel);
                if (lot is null)
                {
                    return new Shelf.NoSuchLot(code);
                }

                var balance = await db.BalanceAsync(code, cancel);
                var drawn = lot.Draw(balance, Math.Max(1, request.Quantity ?? balance.OnShelf), request.Printer, wish, clock.Today());
                if (!drawn.Granted)
                {
                    return drawn.Refusal;
                }

                await db.AddAsync(drawn.Value, balance, cancel);
                lot.Opened ??= clock.Today();
            }

            (loaded.Lot, loaded.Black, loaded.MediaSetting) = (request.Lot, request.Black, request.MediaSetting);
            (loaded.Since, loaded.By) = (clock.GetUtcNow(), request.By);
            return new Done(request.Printer);
        }, cancel);

    // A line of its own for what comes off, numbered after the line of what goes on.
    private static async Task TakeOffAsync(RoomDb db, LotCode code, PrinterCode printer, Wish wish, CancellationToken cancel)
    {
        var lot = await db.Lots.FindAsync([code], cancel);
        var balance = await db.BalanceAsync(code, cancel);
        var left = balance.Of(Account.At(printer));
        if (lot is not null && left > 0)
        {
            var move = lot.BringBack(balance, left, printer, wish).Value!;
            await db.AddAsync(move with { Line = 2 }, balance, cancel);
        }
    }

    /// <param name="Command">The wish's own id.</param>
    /// <param name="By">Who loads it.</param>
    /// <param name="Printer">The printer.</param>
    /// <param name="Lot">What goes on; none to leave it empty.</param>
    /// <param name="Quantity">How much of it, in sheets or mm; none for all of it.</param>
    /// <param name="Black">The black it prints with now.</param>
    /// <param name="MediaSetting">The media setting in the driver.</param>
    public sealed record Request(
        CommandId Command, PersonName By, PrinterCode Printer, LotCode? Lot, long? Quantity, BlackInk Black, string MediaSetting);

    public sealed record Done(PrinterCode Printer);

    public sealed record NoSuchPrinter(PrinterCode Printer) : Refusal($"The room has no printer {Printer}.");

    public sealed record NoSuchBlack(string Printer) : Refusal($"{Printer} has no such black.");
}
