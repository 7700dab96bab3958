namespace Goodsheet.Room.Care;

/// <summary>A task that was not done when it should have been, told of one day.</summary>
/// <param name="Last">The day it was last done before; none if never.</param>
/// <param name="Due">The day it should have been done again.</param>
public sealed record Lapse(CareTask Task, DateOnly? Last, DateOnly Due)
{
    /// <summary>Whether the task had lapsed on a day: its due day was an earlier day on which the room worked.</summary>
    /// <param name="task">Which task.</param>
    /// <param name="done">The days it was done, in any order.</param>
    /// <param name="day">The day asked about.</param>
    /// <param name="works">Whether the room works on a day.</param>
    /// <returns>None when it was in time, or was never done at all and so has no interval to miss.</returns>
    public static Lapse? On(CareTask task, IEnumerable<DateOnly> done, DateOnly day, Func<DateOnly, bool> works)
    {
        if (done.Where(d => d <= day).Select(d => (DateOnly?)d).Max() is not { } last)
        {
            return null;
        }

        var due = last.AddDays(task.EveryDays);
        while (due < day && !works(due))
        {
            due = due.AddDays(1);
        }

        return due < day ? new(task, last, due) : null;
    }
}
