using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Care;
using Goodsheet.Room.Control;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Care;

/// <summary>Says how often a task of care is done, when, and in which steps.</summary>
public sealed class ChangeTask(RoomStore room)
{
    private const int MostSteps = 20;
    private const int LongestText = 2_000;
    private const int LongestInterval = 730;

    public async Task<CareTask?> FindAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.CareTasks.FindAsync([number], cancel);
    }

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        if (await db.CareTasks.FindAsync([request.Task], cancel) is not { } task)
        {
            return new NoSuchTask(request.Task);
        }

        var steps = request.Steps.Replace("\r", "", StringComparison.Ordinal).Trim();
        if (request.Name.Trim().Length is 0 or > 100 || request.EveryDays is < 1 or > LongestInterval
            || steps.Length > LongestText || request.Caution.Length > LongestText)
        {
            return new CannotBe();
        }

        (task.Name, task.EveryDays, task.At, task.Caution, task.Against, task.Marks) = (request.Name.Trim(), request.EveryDays, request.At, request.Caution.Trim(), request.Against, task.Printer is null ? null : request.Marks);
        task.Steps = steps;
        return task.StepList.Count > MostSteps ? new TooManySteps() : new Done(task.Name);
    }, cancel);

    public sealed record Request(int Task, string Name, int EveryDays, TimeOnly? At, string Steps, string Caution, WasteCause? Against, EventKind? Marks = null);

    public sealed record Done(string Task);

    public sealed record CannotBe() : Refusal($"A task has a name, is done every 1 to {LongestInterval} days, and its text is at most {LongestText} letters. Nothing was changed.");

    public sealed record TooManySteps() : Refusal($"At most {MostSteps} steps: split the task in two. Nothing was changed.");
}
