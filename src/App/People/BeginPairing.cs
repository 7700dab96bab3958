using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Makes the code that pairs one phone. Earlier codes are worth nothing from then on.</summary>
public sealed class BeginPairing(RoomStore room, TimeProvider clock)
{
    private const string Letters = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"; // none that is taken for another
    private const int Length = 8; // of 32 letters: 40 bits, and five tries
    private static readonly TimeSpan Life = TimeSpan.FromMinutes(5);

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var code = RandomNumberGenerator.GetString(Letters, Length);
        return room.ChangeAsync<Done>(async db =>
        {
            if (!await db.People.AnyAsync(p => p.Name == request.Person && !p.Gone, cancel))
            {
                return new NobodyOfThatName(request.Person);
            }

            var until = clock.GetUtcNow() + Life;
            db.PairingCodes.RemoveRange(await db.PairingCodes.ToListAsync(cancel));
            db.PairingCodes.Add(new() { CodeHash = DeviceToken.HashOf(code), Person = request.Person, Until = until });
            return new Done($"{code[..4]}-{code[4..]}", until);
        }, cancel);
    }

    /// <summary>As it was made, however it was typed: small letters, spaces and dashes do not matter.</summary>
    internal static string Plain(string typed) => string.Concat(typed.ToUpperInvariant().Where(char.IsAsciiLetterOrDigit));

    public sealed record Request(PersonName Person);

    /// <summary>The code, as it is shown, and until when it is good.</summary>
    public sealed record Done(string Code, DateTimeOffset Until);
}
