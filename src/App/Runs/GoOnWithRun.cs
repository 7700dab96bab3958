using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Runs;

/// <summary>A named person lets a run go on although something is not right with it, with the reason kept. It holds for what stands in its way now, not for what comes later.</summary>
public sealed class GoOnWithRun(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var run = await db.Runs.FindAsync([request.Run], cancel);
            if (run is null || run.State is not RunState.Planned)
            {
                return run is null ? new NoSuchRun(request.Run) : new StartRun.HasBegun(request.Run);
            }

            if (request.Why.Trim().Length == 0)
            {
                return new SayWhy();
            }

            var stops = await RunStops.OpenAsync(db, run, cancel);
            var alike = request.Alike ? await RunStops.AlikeAsync(db, run, stops, cancel) : [];
            var why = alike.Count == 0 ? request.Why.Trim() : $"{request.Why.Trim()} (decided once for runs {string.Join(", ", alike.Select(a => a.Run).Append(run.Number).Order())})";
            foreach (var stop in stops)
            {
                run.Decision = Note(db, run.Number, stop, why, request.By);
            }

            foreach (var (number, stop) in alike)
            {
                (await db.Runs.SingleAsync(r => r.Number == number, cancel)).Decision = Note(db, number, stop, why, request.By);
            }

            return new Done(run.Number, [.. alike.Select(a => a.Run)]);
        }, cancel);

    // A row for each run: each card bears what was decided about it, and no other.
    private Guid Note(RoomDb db, int run, RunStop stop, string why, PersonName by)
    {
        var decision = new Decision { Id = Guid.CreateVersion7(), About = RunStops.About(run), What = stop.Decided, Why = why, At = clock.GetUtcNow(), By = by };
        db.Decisions.Add(decision);
        return decision.Id;
    }

    /// <param name="Alike">It is decided for every planned run that the same change of the printing condition stops, too; what else stops those stays.</param>
    public sealed record Request(PersonName By, int Run, string Why, bool Alike = false);

    /// <param name="Alike">The other runs it was decided for.</param>
    public sealed record Done(int Run, IReadOnlyList<int> Alike);

    public sealed record SayWhy() : Refusal("Say why: your name and the reason stay with the run.");
}
