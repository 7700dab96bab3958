using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Orders;

/// <summary>Writes down how a complaint came to its end. It is settled once.</summary>
public sealed class SettleComplaint(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var how = request.How.Trim();
            if (how.Length is 0 or > OrderLog.LongestText)
            {
                return new SayWhy("How was it settled?");
            }

            if (await db.Complaints.FindAsync([request.Complaint], cancel) is not { } complaint)
            {
                return new NoSuchComplaint(request.Complaint);
            }

            if (complaint.SettledAt is null)
            {
                (complaint.SettledAt, complaint.SettledHow) = (clock.GetUtcNow(), how);
                await OrderLog.AddAsync(db, complaint.Order, FactKind.ComplaintSettled, $"Complaint {complaint.Number}: {how}", clock.GetUtcNow(), request.By, cancel);
            }

            return complaint.SettledHow == how ? new Done(complaint.Order) : new WasSettled(complaint.SettledHow);
        }, cancel);

    public sealed record Request(PersonName By, int Complaint, string How);

    public sealed record Done(int Order);

    public sealed record WasSettled(string How) : Refusal($"It was settled already: {How}. Nothing was changed.");
}
