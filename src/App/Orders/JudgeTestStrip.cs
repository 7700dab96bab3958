using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Orders;

/// <summary>The keeper says of a printed test strip: go on, or change. It stays with the order.</summary>
public sealed class JudgeTestStrip(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.TestStrips.FindAsync([request.Order, request.Line, request.Number], cancel) is not { } strip)
            {
                return new NoSuchStrip(request.Number);
            }

            var why = request.Why.Trim();
            if (request.Says is not (StripSays.GoOn or StripSays.Change) || why.Length > OrderLog.LongestText || (request.Says is StripSays.Change && why.Length == 0))
            {
                return new SayWhy("What is to be changed?");
            }

            if (strip.PrintedAt is null)
            {
                return new NotPrinted(strip.Number);
            }

            if ((strip.Says, strip.Why) == (request.Says, why))
            {
                return new Done(strip.Number);
            }

            var now = clock.GetUtcNow();
            (strip.Says, strip.Why, strip.SaidAt, strip.SaidBy) = (request.Says, why, now, request.By);
            var words = request.Says is StripSays.GoOn ? "go on" : "change";
            await OrderLog.AddAsync(db, request.Order, FactKind.StripJudged, $"Test strip {strip.Number} of print {strip.Line}, profile {strip.Profile}: {words}.{(why.Length > 0 ? $" {why}" : "")}", now, request.By, cancel);
            return new Done(strip.Number);
        }, cancel);

    public sealed record Request(PersonName By, int Order, int Line, int Number, StripSays Says, string Why);

    public sealed record Done(int Strip);

    public sealed record NotPrinted(int Number) : Refusal($"Test strip {Number} is not printed yet: say first which paper it was printed on.");
}
