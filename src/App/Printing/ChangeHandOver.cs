using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Printing;

/// <summary>Says how files come to a printer: by hand, into a folder, over the network; in 16 bits or in 8.</summary>
public sealed class ChangeHandOver(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.Printers.FindAsync([request.Printer], cancel) is not { } printer)
            {
                return new NoSuchPrinter(request.Printer);
            }

            if (request.HandOver is HandOver.Network && IppClient.Address(request.Address) is null)
            {
                return new NoAddress(request.Address);
            }

            (printer.HandOver, printer.Address) = (request.HandOver, request.HandOver is HandOver.Network ? request.Address.Trim() : "");
            printer.EightBits = request.EightBits;
            return new Done(printer.Code);
        }, cancel);

    public sealed record Request(PrinterCode Printer, HandOver HandOver, string Address, bool EightBits = false);

    public sealed record Done(PrinterCode Printer);
}

public sealed record NoSuchPrinter(PrinterCode Printer) : Refusal($"The room has no printer {Printer}.");
