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

            foreach (var stop in await RunStops.OpenAsync(db, run, cancel))
            {
                var decision = new Decision
                {
                    Id = Guid.CreateVersion7(),
                    About = RunStops.About(run.Number),
                    What = stop.Decided,
                    Why = request.Why.Trim(),
                    At = clock.GetUtcNow(),
                    By = request.By,
                };
                db.Decisions.Add(decision);
                run.Decision = decision.Id;
            }

            return new Done(run.Number);
        }, cancel);

    public sealed record Request(PersonName By, int Run, string Why);

    public sealed record Done(int Run);

    public sealed record SayWhy() : Refusal("Say why: your name and the reason stay with the run.");
}
