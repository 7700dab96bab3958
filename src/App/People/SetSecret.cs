using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Gives a person a PIN or password. Screens signed in with the old one are signed out; paired phones stay.</summary>
public sealed class SetSecret(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (SecretRule.Check(request.Secret) is { } refusal)
        {
            return Task.FromResult<Outcome<Done>>(refusal);
        }

        var hash = HashedSecret.Of(request.Secret);
        return room.ChangeAsync<Done>(async db =>
        {
            if (await db.People.SingleOrDefaultAsync(p => p.Name == request.Person && !p.Gone, cancel) is not { } person)
            {
                return new NobodyOfThatName(request.Person);
            }

            person.SecretHash = hash;
            person.ForgetGuesses();
            foreach (var device in await db.Devices
                .Where(d => d.Person == person.Name && d.How == Admission.SignedIn && d.RevokedAt == null).ToListAsync(cancel))
            {
                device.RevokedAt = clock.GetUtcNow();
            }

            return new Done(person.Name);
        }, cancel);
    }

    public sealed record Request(PersonName Person, string Secret)
    {
        /// <summary>Never the secret: a request may end in a log.</summary>
        public override string ToString() => $"a new secret for {Person}";
    }

    public sealed record Done(PersonName Person);
}

public sealed record NobodyOfThatName(PersonName Name) : Refusal($"Nobody called {Name} works in the room.");
