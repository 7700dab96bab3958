using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>Writes down what a client paid before the work; less than nothing is paid back.</summary>
public sealed class NoteDeposit(RoomStore room, TimeProvider clock)
{
    private const decimal Most = 10_000_000;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.Amount == 0 || Math.Abs(request.Amount) > Most || decimal.Round(request.Amount, 2) != request.Amount || request.How.Length > OrderLog.LongestText)
            {
                return new NoAmount();
            }

            var found = await OrderLog.FindAsync(db, request.Order, cancel);
            if (found.Value is not { } order)
            {
                return found.Refusal!;
            }

            if (order.Deposit + request.Amount < 0)
            {
                return new MoreThanPaid(order.Deposit);
            }

            var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, clock.GetUtcNow()), request.ToString(), cancel);
            if (!before.Granted || before.Value)
            {
                return before.Granted ? new Done(order.Deposit) : before.Refusal;
            }

            order.Deposit += request.Amount;
            db.OrderFacts.Add(new()
            {
                Order = order.Number,
                Number = await OrderLog.NextAsync(db, order.Number, cancel),
                Kind = FactKind.DepositNoted,
                At = clock.GetUtcNow(),
                By = request.By,
                Amount = request.Amount,
                Text = request.How.Trim(),
            });
            return new Done(order.Deposit);
        }, cancel);

    public sealed record Request(CommandId Command, PersonName By, int Order, decimal Amount, string How);

    public sealed record Done(decimal Together);

    public sealed record NoAmount() : Refusal("A deposit is an amount in whole cents, above 0; below 0 it is paid back.");

    public sealed record MoreThanPaid(decimal Paid) : Refusal($"Only {Paid:0.00} was paid; more than that is not paid back.");
}
