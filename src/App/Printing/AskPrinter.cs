using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Printing;

/// <summary>Asks a printer on the network how it is: its state, its inks, what it takes.</summary>
public sealed class AskPrinter(RoomStore room, NetworkPrinters network)
{
    public async Task<Outcome<PrinterSays>> RunAsync(PrinterCode code, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var printer = await db.Printers.AsNoTracking().SingleOrDefaultAsync(p => p.Code == code, cancel);
        return printer is { HandOver: HandOver.Network } ? await network.AskAsync(printer.Address, cancel) : new NotOnTheNetwork(printer?.Name ?? code.Value);
    }

    public sealed record NotOnTheNetwork(string Printer) : Refusal($"{Printer} is not reached over the network.");
}
