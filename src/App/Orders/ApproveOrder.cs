using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>Writes down that the client approved: who, which files, which proof, and where the signed reference print lies.</summary>
public sealed class ApproveOrder(RoomStore room, TimeProvider clock)
{
    private const int LongestName = 120;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.ByClient.Trim().Length is 0 or > LongestName || request.SignedPrint.Length > OrderLog.LongestText)
            {
                return new WhoApproved();
            }

            var found = await OrderLog.FindAsync(db, request.Order, cancel);
            if (found.Value is not { } order)
            {
                return found.Refusal!;
            }

            if (order.State is OrderState.Done or OrderState.Cancelled)
            {
                return new AskApproval.IsClosed(order.Number, order.State);
            }

            var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, clock.GetUtcNow()), request.ToString(), cancel);
            if (!before.Granted || before.Value)
            {
                return before.Granted ? new Done() : before.Refusal;
            }

            var proof = await db.OrderFacts.Where(f => f.Order == order.Number && f.Kind == FactKind.ProofSent).OrderByDescending(f => f.Number).Select(f => f.Proof).FirstOrDefaultAsync(cancel);
            order.ApprovedAt = clock.GetUtcNow();
            order.State = order.State is OrderState.OnHold ? OrderState.OnHold : OrderState.Approved;
            db.OrderFacts.Add(new()
            {
                Order = order.Number,
                Number = await OrderLog.NextAsync(db, order.Number, cancel),
                Kind = FactKind.Approved,
                At = clock.GetUtcNow(),
                By = request.By,
                ByClient = request.ByClient.Trim(),
                Text = request.SignedPrint.Trim(),
                Files = await OrderLog.FilesAsync(db, order.Number, cancel),
                Proof = proof ?? "",
            });
            return new Done();
        }, cancel);

    /// <param name="ByClient">Who said yes, on the client's side.</param>
    /// <param name="SignedPrint">Where the signed reference print lies; empty if there is none.</param>
    public sealed record Request(CommandId Command, PersonName By, int Order, string ByClient, string SignedPrint);

    public sealed record Done;

    public sealed record WhoApproved() : Refusal($"Who approved it, on the client’s side? A name of at most {LongestName} letters.");
}
