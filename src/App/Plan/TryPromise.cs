using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Plan;

/// <summary>What if this were promised at that time? Nothing changes.</summary>
public sealed class TryPromise(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var now = clock.GetUtcNow();
        var day = await RoomDay.ReadAsync(db, now, null, cancel);
        var asking = day.Work.Runs.ToList().FindIndex(r => r.Key == request.Key);
        if (asking < 0 || day.Strips.ContainsKey(asking)) // a strip is promised to nobody
        {
            return new NothingSoCalled(request.Key);
        }

        var local = TimeZoneInfo.ConvertTime(now, day.Zone).Date + request.At.ToTimeSpan();
        var at = new DateTimeOffset(local, day.Zone.GetUtcOffset(local));
        var asked = await RoomDay.ReadAsync(db, now, (request.Key, at), cancel);
        var begun = clock.GetTimestamp();
        bool Stop(long tried) => tried > PlanDay.MostTries || clock.GetElapsedTime(begun) > PlanDay.Search;
        var before = DayPlanner.Plan(day.Work, day.Present, PlanDay.Seed, _ => true);
        var after = DayPlanner.Plan(asked.Work, day.Present, PlanDay.Seed, Stop);
        if (!before.Granted || !after.Granted)
        {
            return before.Refusal ?? after.Refusal!;
        }

        // The order at hand is kept in the answer when it already holds the promise; else the search has moved what it must.
        var it = after.Value.Slots.Single(s => asked.Work.Runs[s.Run].Key == request.Key);
        var wasLate = before.Value.Slots.Where(s => s.Late > 0).Select(s => s.Run).ToHashSet();
        return new Done(
            request.Key, at, asked.At(it.Dry), it.Late <= 0,
            [.. after.Value.Slots.Where(s => s.Run != it.Run && s.Late > 0 && !wasLate.Contains(s.Run)).Select(s => (asked.Work.Runs[s.Run].Key, s.Late))],
            !after.Value.Order.Zip(before.Value.Order).All(l => l.First.SequenceEqual(l.Second)), day.Zone);
    }

    public sealed record Request(string Key, TimeOnly At);

    /// <param name="Dry">When it could be handed out.</param>
    /// <param name="NowLate">Others that would become late, and by how many minutes.</param>
    /// <param name="Moves">Whether anything else would move.</param>
    public sealed record Done(string Key, DateTimeOffset Asked, DateTimeOffset Dry, bool Fits, IReadOnlyList<(string Key, double Minutes)> NowLate, bool Moves, TimeZoneInfo Zone);

    public sealed record NothingSoCalled(string Key) : Refusal($"Nothing called {Key} waits to be printed.");
}
