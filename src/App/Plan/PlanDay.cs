using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Plan;

/// <summary>Plans the rest of the day afresh. What has begun stays, and the order at hand is shuffled only if that is worth it.</summary>
public sealed class PlanDay(RoomStore room, TimeProvider clock)
{
    internal const int Seed = 1;

    /// <summary>More exchanges than a busy day needs: a small day is done long before its time is.</summary>
    internal const long MostTries = 1_000_000;

    /// <summary>How long it looks for a better order.</summary>
    internal static readonly TimeSpan Search = TimeSpan.FromMilliseconds(250);

    public Task<Outcome<DayShown>> RunAsync(CancellationToken cancel = default) => room.ChangeAsync<DayShown>(async db =>
    {
        var day = await RoomDay.ReadAsync(db, clock.GetUtcNow(), null, cancel);
        var begun = clock.GetTimestamp();
        var plan = DayPlanner.Plan(day.Work, day.Present, Seed, tried => tried > MostTries || clock.GetElapsedTime(begun) > Search);
        if (!plan.Granted)
        {
            return plan.Refusal;
        }

        foreach (var slot in plan.Value.Slots)
        {
            if (day.Runs[slot.Run] is { } run)
            {
                var stored = await db.Runs.SingleAsync(r => r.Number == run.Number, cancel);
                (stored.PlannedAt, stored.PlannedMinutes) = (day.At(slot.Begins), slot.Ends - slot.Begins);
            }
        }

        return DayShown.Of(day, plan.Value);
    }, cancel);
}
