using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>Writes down that a quotation or a proof went to the client, and holds the prints until it is approved.</summary>
public sealed class AskApproval(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.Of is not (ApprovalOf.Quotation or ApprovalOf.Proof))
            {
                return new SayWhy("What was sent: the quotation or a proof?");
            }

            if (request.How.Length > OrderLog.LongestText)
            {
                return new SayWhy("How was it sent?");
            }

            var found = await OrderLog.FindAsync(db, request.Order, cancel);
            if (found.Value is not { } order)
            {
                return found.Refusal!;
            }

            if (order.State is OrderState.Done or OrderState.Cancelled)
            {
                return new IsClosed(order.Number, order.State);
            }

            var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, clock.GetUtcNow()), request.ToString(), cancel);
            if (!before.Granted || before.Value)
            {
                return before.Granted ? new Done() : before.Refusal;
            }

            (order.Asks, order.ApprovedAt) = (request.Of, null);
            order.State = order.State is OrderState.OnHold ? OrderState.OnHold : OrderState.Quoted;
            db.OrderFacts.Add(new()
            {
                Order = order.Number,
                Number = await OrderLog.NextAsync(db, order.Number, cancel),
                Kind = request.Of is ApprovalOf.Quotation ? FactKind.QuotationSent : FactKind.ProofSent,
                At = clock.GetUtcNow(),
                By = request.By,
                Text = request.How.Trim(),
                Files = await OrderLog.FilesAsync(db, order.Number, cancel),
                Proof = request.Of is ApprovalOf.Proof ? await OrderLog.ProofAsync(db, order.Number, cancel) : "",
            });
            return new Done();
        }, cancel);

    /// <param name="How">By which way, or where the proof lies.</param>
    public sealed record Request(CommandId Command, PersonName By, int Order, ApprovalOf Of, string How);

    public sealed record Done;

    public sealed record IsClosed(int Order, OrderState State) : Refusal($"Order {Order} is {State.ToString().ToLowerInvariant()}: nothing of it waits for approval.");
}
