using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Orders;

/// <summary>Writes down that the client has an order: collected, or sent and how.</summary>
public sealed class HandOutOrder(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.How.Length > OrderLog.LongestText)
            {
                return new SayWhy("How was it sent?");
            }

            var found = await OrderLog.FindAsync(db, request.Order, cancel);
            if (found.Value is not { } order)
            {
                return found.Refusal!;
            }

            if (order.OutAt is not null)
            {
                return new Done(); // by another hand already
            }

            var prints = await db.PrintLines.Where(l => l.Order == order.Number).ToListAsync(cancel);
            if (order.State is not OrderState.Done)
            {
                return new NotPrinted(order.Number, prints.Sum(p => p.ToPrint));
            }

            if (await db.FinishSteps.Where(s => s.Order == order.Number && s.DoneAt == null).OrderBy(s => s.Number).FirstOrDefaultAsync(cancel) is { } open)
            {
                return new StepsAreOpen(open.Text);
            }

            (order.OutAt, order.Out) = (clock.GetUtcNow(), request.Out);
            await OrderLog.AddAsync(db, order.Number, request.Out is HandOut.Sent ? FactKind.Sent : FactKind.Collected, request.How.Trim(), clock.GetUtcNow(), request.By, cancel);
            return new Done();
        }, cancel);

    /// <param name="How">By whom it was collected, or the carrier and its number.</param>
    public sealed record Request(PersonName By, int Order, HandOut Out, string How);

    public sealed record Done;

    public sealed record NotPrinted(int Order, int Prints) : Refusal($"{Prints} prints of order {Order} are still to be made. It is handed out whole.");

    public sealed record StepsAreOpen(string Step) : Refusal($"A step of finishing is not ticked: {Step}");
}
