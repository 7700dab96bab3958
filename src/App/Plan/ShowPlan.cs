using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Plan;

/// <summary>Today's plan as it stands: what has begun, and the rest in the order at hand. It changes nothing.</summary>
public sealed class ShowPlan(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<DayShown>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var day = await RoomDay.ReadAsync(db, clock.GetUtcNow(), null, cancel);
        var plan = DayPlanner.Plan(day.Work, day.Present, PlanDay.Seed, _ => true);
        return plan.Granted ? DayShown.Of(day, plan.Value) : plan.Refusal;
    }
}
