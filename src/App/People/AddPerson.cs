using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Writes down somebody who works in the room.</summary>
public sealed class AddPerson(RoomStore room, TimeProvider clock)
{
    private const int LongestName = 60;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var name = new PersonName(request.Name.Trim());
            if (name.Value.Length is 0 or > LongestName)
            {
                return new NoName();
            }

            if (name.IsTheRooms)
            {
                return new TheRoomsOwn(name);
            }

            if (await db.People.FindAsync([name], cancel) is { } known)
            {
                known.Gone = false;
            }
            else
            {
                db.People.Add(new() { Name = name, Since = clock.GetUtcNow() });
            }

            return new Done(name);
        }, cancel);

    public sealed record Request(string Name);

    public sealed record Done(PersonName Name);

    public sealed record NoName() : Refusal($"A name has 1 to {LongestName} letters.");

    public sealed record TheRoomsOwn(PersonName Name) : Refusal($"“{Name}” is what the room writes where nobody is named. Take another name.");
}
