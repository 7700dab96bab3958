using Microsoft.Extensions.DependencyInjection;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.Demo;

/// <summary>Does in the demonstration room what people do through its pages: by the same use cases, at the time the simulated clock shows.</summary>
internal sealed class DemoHand(IServiceProvider services, RoomStore room, FileShelf files, SimulatedClock clock, Random random)
{
    public RoomStore Room => room;

    public FileShelf Files => files;

    public SimulatedClock Clock => clock;

    public Random Random => random;

    public T The<T>()
        where T : notnull => services.GetRequiredService<T>();

    /// <summary>Long work, made as the scheduler makes it.</summary>
    public T Work<T>()
        where T : LongWork => ActivatorUtilities.CreateInstance<T>(services);

    /// <summary>A wish's id: from the seed, so that the room is the same again.</summary>
    public CommandId Command()
    {
        Span<byte> bytes = stackalloc byte[16];
        random.NextBytes(bytes);
        return new(new Guid(bytes));
    }

    public PersonName Anybody() => new(DemoCast.People[random.Next(DemoCast.People.Count)]);

    public bool Chance(double of) => random.NextDouble() < of;

    /// <summary>The value; a rule that says no to the demonstration is a bug of the demonstration.</summary>
    public static T Must<T>(Outcome<T> outcome)
        where T : notnull => outcome.Granted ? outcome.Value
            : throw new InvalidOperationException($"The demonstration was refused: {outcome.Refusal.Message}");

    /// <summary>Writes what no page writes yet, or what only time brings about.</summary>
    public async Task WriteAsync(Func<RoomDb, Task> step, CancellationToken cancel) =>
        Must(await room.ChangeAsync<Written>(async db =>
        {
            await step(db);
            return new Written();
        }, cancel));

    private sealed record Written;
}
