using System.Globalization;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Layout;

/// <summary>Says of a print whether it may be turned, whether it has time to go along where there is room, and whether a test strip is looked at before it is begun.</summary>
public sealed class SayHowLaid(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var found = await OrderLog.FindAsync(db, request.Order, cancel);
        if (found.Value is not { } order)
        {
            return found.Refusal!;
        }

        if (await db.PrintLines.FindAsync([request.Order, request.Line], cancel) is not { } line)
        {
            return new NoSuchOrder(request.Order);
        }

        if ((line.MayTurn, line.GoesAlong, line.StripFirst) != (request.MayTurn, request.GoesAlong, request.StripFirst))
        {
            (line.MayTurn, line.GoesAlong, line.StripFirst) = (request.MayTurn, request.GoesAlong, request.StripFirst);
            var says = string.Create(CultureInfo.InvariantCulture, $"Print {line.Line}: {(line.MayTurn ? "may be turned" : "is not turned")} on the paper{(line.GoesAlong ? ", goes along where there is room" : "")}{(line.StripFirst ? ", a test strip is looked at first" : "")}.");
            await OrderLog.AddAsync(db, order.Number, FactKind.Changed, says, clock.GetUtcNow(), request.By, cancel);
        }

        return new Done();
    }, cancel);

    public sealed record Request(PersonName By, int Order, int Line, bool MayTurn, bool GoesAlong, bool StripFirst = false);

    public sealed record Done;
}
