using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Someone left: their name cannot be picked, their secret and their phones are worth nothing, their lines stay.</summary>
public sealed class LetPersonGo(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.People.SingleOrDefaultAsync(p => p.Name == request.Person && !p.Gone, cancel) is not { } person)
            {
                return new NobodyOfThatName(request.Person);
            }

            (person.Gone, person.SecretHash) = (true, null);
            foreach (var device in await db.Devices.Where(d => d.Person == person.Name && d.RevokedAt == null).ToListAsync(cancel))
            {
                device.RevokedAt = clock.GetUtcNow();
            }

            db.PairingCodes.RemoveRange(await db.PairingCodes.Where(c => c.Person == person.Name).ToListAsync(cancel));
            return new Done(person.Name);
        }, cancel);

    public sealed record Request(PersonName Person);

    public sealed record Done(PersonName Person);
}
