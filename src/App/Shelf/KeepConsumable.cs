using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>Writes a consumable down, or changes how one is kept: ink by its channel, tanks, blades, coats, gloves.</summary>
public sealed class KeepConsumable(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.Wrong() is { } wrong)
            {
                return wrong;
            }

            if (request.Printer is { } printer && await db.Printers.FindAsync([printer], cancel) is null)
            {
                return new DrawPaper.NoSuchPrinter(printer);
            }

            if (request.Supplier is { } supplier && await db.Suppliers.FindAsync([supplier], cancel) is null)
            {
                return new Buying.NoSuchSupplier(supplier);
            }

            var code = request.Code ?? CodeOf(request.Name);
            var known = await db.Consumables.FindAsync([code], cancel);
            if (known is null && request.Code is { } gone)
            {
                return new NoSuchConsumable(gone);
            }

            if (known is not null && request.Code is null)
            {
                return new ConsumableIsKnown(known.Name);
            }

            if (request.Kind is ConsumableKind.Ink && known is null && await db.Consumables.AnyAsync(
                c => c.Kind == ConsumableKind.Ink && c.Printer == request.Printer && c.Channel == request.Channel.Trim(), cancel))
            {
                return new ChannelIsKnown(request.Channel.Trim());
            }

            if (known is null)
            {
                db.Consumables.Add(known = request.New(code));
            }

            (known.Name, known.Millilitres, known.ReorderAt) = (request.Name.Trim(), request.Millilitres, request.ReorderAt);
            (known.Place, known.Supplier, known.Price) = (request.Place.Trim(), request.Supplier, request.Price);
            return new Done(code);
        }, cancel);

    internal static ConsumableCode CodeOf(string name) => new(Slug.Of(name));

    /// <param name="Code">The one to change; none to write a new one down. Kind, printer and channel stay as they were written.</param>
    public sealed record Request(
        ConsumableCode? Code, string Name, ConsumableKind Kind, PrinterCode? Printer, string Channel, double Millilitres, long ReorderAt, string Place, SupplierCode? Supplier,
        decimal? Price = null)
    {
        public const int LongestName = 60;
        public const long MostPieces = 10_000;
        public const double MostMillilitres = 10_000;
        public const decimal MostPrice = 1_000_000;

        internal Refusal? Wrong() => this switch
        {
            _ when Name.Trim().Length > LongestName || CodeOf(Name).Value.Length == 0 => new DoesNotServe($"A consumable needs a name with letters or figures, at most {LongestName}."),
            _ when Channel.Trim().Length > LongestName || Place.Trim().Length > LongestName => new DoesNotServe($"A channel and a place have at most {LongestName} letters."),
            _ when Kind is ConsumableKind.Ink && (Printer is null || Channel.Trim().Length == 0) => new DoesNotServe("Ink is of one printer and one channel: say which."),
            _ when !(Millilitres is >= 0 and <= MostMillilitres) => new DoesNotServe($"A piece holds from 0 to {MostMillilitres:0} ml."),
            _ when Price is < 0 or > MostPrice => new DoesNotServe($"One costs from 0 to {MostPrice:0}."),
            _ when ReorderAt is < 0 or > MostPieces => new DoesNotServe($"More is ordered at 0 to {MostPieces} pieces."),
            _ => null,
        };

        internal Consumable New(ConsumableCode code) => new() { Code = code, Name = Name.Trim(), Kind = Kind, Printer = Printer, Channel = Channel.Trim() };
    }

    public sealed record Done(ConsumableCode Consumable);

    public sealed record DoesNotServe(string Why) : Refusal(Why);

    public sealed record ConsumableIsKnown(string Name) : Refusal($"The room already has a consumable called {Name}.");

    public sealed record ChannelIsKnown(string Channel) : Refusal($"The ink of this printer’s {Channel} is written down already: put pieces away under it.");
}

public sealed record NoSuchConsumable(ConsumableCode Consumable) : Refusal($"The room has no consumable {Consumable}.");
