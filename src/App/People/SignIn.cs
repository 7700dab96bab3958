using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Lets a screen in for a working day, by name and PIN or password.</summary>
public sealed class SignIn(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow();
        var counted = await room.ChangeAsync<Guess>(async db =>
        {
            var person = await OfAsync(db, request.Name, cancel);
            if (person?.IsLocked(now) is true)
            {
                return new Locked(person.LockedUntil!.Value, clock.LocalTimeZone);
            }

            person?.CountGuess(now);
            return new Guess(person?.Name, person?.SecretHash);
        }, cancel);
        if (!counted.Granted)
        {
            return counted.Refusal;
        }

        var known = request.Secret.Length <= SecretRule.Most && HashedSecret.Matches(counted.Value.Hash, request.Secret);
        if (!known || counted.Value.Name is not { } name)
        {
            return new Wrong();
        }

        return await room.ChangeAsync<Done>(async db =>
        {
            var person = await db.People.SingleAsync(p => p.Name == name, cancel);
            if (person.Gone || person.SecretHash != counted.Value.Hash)
            {
                return new Wrong(); // changed while we looked
            }

            person.ForgetGuesses();
            var (token, device) = DeviceToken.Admit(Admission.SignedIn, name, request.DeviceName, now);
            db.Devices.Add(device);
            return new Done(name, token, device.Until);
        }, cancel);
    }

    private static async Task<Person?> OfAsync(RoomDb db, string name, CancellationToken cancel) =>
        (await db.People.Where(p => !p.Gone && p.SecretHash != null).ToListAsync(cancel))
            .FirstOrDefault(p => p.Name.Value.Equals(name.Trim(), StringComparison.OrdinalIgnoreCase));

    private sealed record Guess(PersonName? Name, string? Hash);

    public sealed record Request(string Name, string Secret, string DeviceName)
    {
        /// <summary>Never the secret: a request may end in a log.</summary>
        public override string ToString() => $"sign-in of {Name}";
    }

    public sealed record Done(PersonName Name, string Token, DateTimeOffset Until);

    public sealed record Wrong() : Refusal("Name and PIN or password do not belong together.");

    public sealed record Locked(DateTimeOffset Until, TimeZoneInfo Zone) : Refusal(
        $"Too many wrong tries for this name. Try again at {TimeZoneInfo.ConvertTime(Until, Zone):HH:mm:ss}, or work at the room’s own machine until then.");
}
