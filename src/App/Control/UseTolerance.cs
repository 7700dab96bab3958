using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Control;

/// <summary>Holds a printing condition to another set of limits, from its next strip on.</summary>
public sealed class UseTolerance(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.Conditions.FindAsync([request.Condition], cancel) is not { } condition)
            {
                return new NoteChange.NoSuchCondition(request.Condition);
            }

            if (await db.Tolerances.FindAsync([request.Tolerance], cancel) is null)
            {
                return new NoSuchSet(request.Tolerance);
            }

            if (condition.Tolerance != request.Tolerance)
            {
                condition.Tolerance = request.Tolerance;
                db.Decisions.Add(new()
                {
                    Id = Guid.CreateVersion7(),
                    About = $"condition {condition.Code}",
                    What = $"held to “{request.Tolerance}”",
                    Why = "what is promised on it",
                    At = clock.GetUtcNow(),
                    By = request.By,
                });
            }

            return new Done(request.Tolerance);
        }, cancel);

    public sealed record Request(PersonName By, ConditionCode Condition, string Tolerance);

    public sealed record Done(string Tolerance);

    public sealed record NoSuchSet(string Name) : Refusal($"The room has no set of limits named “{Name}”.");
}
