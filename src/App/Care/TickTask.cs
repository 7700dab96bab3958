using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Care;

/// <summary>Writes down that a task of care was done. A step left out needs a word why.</summary>
public sealed class TickTask(RoomStore room, TimeProvider clock)
{
    private const int LongestNote = 500;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var wish = new Wish(request.Command, request.By, clock.GetUtcNow());
        var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
        if (!before.Granted)
        {
            return before.Refusal;
        }

        if (await db.CareTasks.FindAsync([request.Task], cancel) is not { } task)
        {
            return new NoSuchTask(request.Task);
        }

        if (before.Value)
        {
            return new Done(task.Name);
        }

        var left = task.StepList.Where((_, at) => (request.Ticked & (1L << at)) == 0).ToList();
        var note = request.Note.Trim();
        if (left.Count > 0 && note.Length == 0)
        {
            return new StepsLeft(task.Name, left);
        }

        var said = string.Join(" ", left.Select(step => $"Left out: {step}").Append(note)).Trim();
        db.CareDone.Add(new()
        {
            Id = request.Command.Value,
            Task = request.Task,
            At = wish.At,
            By = request.By,
            Note = said.Length > LongestNote ? said[..LongestNote] : said,
        });
        task.LastAt = wish.At;
        return new Done(task.Name);
    }, cancel);

    /// <param name="Ticked">The steps that were done, as bits from the first.</param>
    public sealed record Request(CommandId Command, PersonName By, int Task, long Ticked, string Note = "");

    public sealed record Done(string Task);

    public sealed record StepsLeft(string Task, IReadOnlyList<string> Steps)
        : Refusal($"{Task}: {Steps.Count} {(Steps.Count == 1 ? "step is" : "steps are")} not ticked ({string.Join(" ", Steps)}). Tick it, or say in the note why it was left.");
}

public sealed record NoSuchTask(int Task) : Refusal($"The room has no task of care {Task}.");
